package slowproof.metrology.regression;

/** What is known about the shape of a curve beforehand. */
public enum Shape {
    /** Never goes down. */
    INCREASING,
    /** Never goes up. */
    DECREASING,
    /** Bends upwards only. */
    CONVEX,
    /** Bends downwards only. */
    CONCAVE
}
