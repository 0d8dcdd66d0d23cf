package slowproof.metrology.sampling;

/** How the points of a sampling are placed. */
public enum Points {
    /** Independent random points. */
    PSEUDO_RANDOM,
    /**
     * The points of Sobol's sequence, shifted at random anew for each block. They cover the space more evenly, so a
     * smooth model needs far fewer of them; the blocks stay independent, so their scatter shows the error.
     */
    SOBOL
}
