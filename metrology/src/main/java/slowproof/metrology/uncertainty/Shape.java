package slowproof.metrology.uncertainty;

/** The shape of an input distribution, for the tables of a budget. */
public enum Shape {
    /** Normal (Gaussian). */
    NORMAL,
    /** Rectangular: limits known, nothing else. */
    RECTANGULAR,
    /** Triangular: limits known, the middle more likely. */
    TRIANGULAR,
    /** Symmetric trapezoid. */
    TRAPEZOIDAL,
    /** Rectangular with limits that are themselves not exactly known. */
    CURVILINEAR_TRAPEZOID,
    /** U-shaped (arcsine): a quantity that swings between limits. */
    U_SHAPED,
    /** Student's t, shifted and scaled. */
    STUDENT
}
