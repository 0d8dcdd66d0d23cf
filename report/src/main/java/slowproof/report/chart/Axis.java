package slowproof.report.chart;

/**
 * One axis of a chart.
 *
 * @param label quantity with its unit, as worded for the reader; empty for an axis that is not drawn
 * @param logarithmic true for decades; both ends are then above 0
 * @param low shown from
 * @param high shown to, above {@code low}
 */
public record Axis(String label, boolean logarithmic, double low, double high) {
    /**
     * Checks the ends.
     *
     * @throws IllegalArgumentException if an end is not finite, they are not in order, or a decade cannot hold them
     */
    public Axis {
        if (!(Double.isFinite(low) && Double.isFinite(high) && low < high)) {
            throw new IllegalArgumentException("an axis needs two finite ends in order, not " + low + " and " + high);
        }
        if (logarithmic && !(low > 0)) {
            throw new IllegalArgumentException("a logarithmic axis starts above 0, not at " + low);
        }
    }

    /** Returns an axis in equal steps. */
    public static Axis linear(String label, double low, double high) {
        return new Axis(label, false, low, high);
    }

    /**
     * Returns a vertical axis for rows that carry their own texts: row 0 lies on top, each is 1 high, and no numbers are
     * drawn.
     *
     * @param count number of rows, at least 1
     */
    public static Axis rows(int count) {
        return new Axis("", false, 0, count);
    }

    /** Returns whether it is drawn. */
    public boolean drawn() {
        return !label.isEmpty();
    }

    /** Returns an axis in decades. */
    public static Axis decades(String label, double low, double high) {
        return new Axis(label, true, low, high);
    }
}
