package slowproof.report.chart;

/**
 * A place on a chart, with what is uncertain about it.
 *
 * @param x value on the horizontal axis, finite
 * @param y value on the vertical axis; NaN leaves a gap in a line
 * @param low lower end of its bar or band, NaN for none
 * @param high upper end, NaN for none
 */
public record Place(double x, double y, double low, double high) {
    /**
     * Checks the place.
     *
     * @throws IllegalArgumentException if x is not finite, or the ends are not in order
     */
    public Place {
        if (!Double.isFinite(x)) {
            throw new IllegalArgumentException("a place on a chart needs a finite x, not " + x);
        }
        if (low > high) {
            throw new IllegalArgumentException("ends of a bar not in order: " + low + " and " + high);
        }
    }

    /** Returns a place without a bar. */
    public static Place of(double x, double y) {
        return new Place(x, y, Double.NaN, Double.NaN);
    }

    /** Returns true when it has a bar. */
    public boolean hasBar() {
        return low <= high;
    }
}
