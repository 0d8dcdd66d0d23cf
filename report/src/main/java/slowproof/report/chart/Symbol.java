package slowproof.report.chart;

/** Shape of a point. */
public enum Symbol {
    /** Filled circle. */
    DISC,
    /** Open circle. */
    RING,
    /** Two strokes across each other. */
    CROSS,
    /** Open square, standing on a corner. */
    DIAMOND,
    /** Open triangle, standing on its side. */
    TRIANGLE,
    /** Small filled circle. */
    SPECK;

    /** Returns the name that pages know it by. */
    public String key() {
        return name().toLowerCase(java.util.Locale.ROOT);
    }
}
