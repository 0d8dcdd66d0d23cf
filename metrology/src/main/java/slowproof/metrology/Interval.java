package slowproof.metrology;

/**
 * A closed interval of values, such as a coverage interval or a confidence interval.
 *
 * @param low lower end, in the unit of the quantity; may be negative infinity
 * @param high upper end, in the unit of the quantity, not below {@code low}; may be positive infinity
 */
public record Interval(double low, double high) {

    /**
     * Checks the ends.
     *
     * @throws IllegalArgumentException if an end is NaN or {@code high} is below {@code low}
     */
    public Interval {
        if (!(low <= high)) {
            throw new IllegalArgumentException("interval must not end below its start: [" + low + ", " + high + "]");
        }
    }

    /**
     * Tells whether a value lies in the interval, its ends included.
     *
     * @param value in the unit of the quantity
     * @return false for NaN
     */
    public boolean contains(double value) {
        return low <= value && value <= high;
    }

    /**
     * Returns the length of the interval.
     *
     * @return high - low, in the unit of the quantity, at least 0
     */
    public double width() {
        return low == high ? 0 : high - low;
    }

    /**
     * Returns the middle of the interval.
     *
     * @return in the unit of the quantity; NaN when both ends are infinite with opposite signs
     */
    public double centre() {
        return low / 2 + high / 2;
    }
}
