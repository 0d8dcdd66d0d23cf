package slowproof.report.chart;

/** How a line is drawn. */
public enum Stroke {
    /** Without gaps. */
    SOLID,
    /** Long dashes. */
    DASHED,
    /** Dots. */
    DOTTED;

    /** Returns lengths of dash and gap in points; empty for a line without gaps. */
    public float[] pattern() {
        return switch (this) {
            case SOLID -> new float[0];
            case DASHED -> new float[] {7, 4};
            case DOTTED -> new float[] {1.5f, 3};
        };
    }
}
