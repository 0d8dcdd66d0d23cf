package slowproof.metrology.sampling;

/**
 * Count, mean and sum of squared deviations of a set of values; two sets can be put together without going
 * back to the values (Chan, Golub and LeVeque 1983).
 *
 * @param count number of values, at least 0
 * @param mean in the unit of the values; 0 when there are none
 * @param squares sum of (value - mean)^2 in the squared unit, at least 0
 */
public record Moments(long count, double mean, double squares) {

    /** No values. */
    public static final Moments NONE = new Moments(0, 0, 0);

    /**
     * Returns the moments of values, in two passes.
     *
     * @param values any number of values; not modified
     * @return their moments
     */
    public static Moments of(double[] values) {
        if (values.length == 0) {
            return NONE;
        }
        // deviations from the first value: a large common part must not swallow the digits of the sum
        double origin = values[0];
        double sum = 0;
        for (double value : values) {
            sum += value - origin;
        }
        double mean = origin + sum / values.length;
        double squares = 0;
        double rest = 0;
        for (double value : values) {
            double deviation = value - mean;
            squares += deviation * deviation;
            rest += deviation;
        }
        // the second term mends the rounding of the mean and is almost nothing
        return new Moments(values.length, mean, Math.max(0, squares - rest * rest / values.length));
    }

    /**
     * Returns the moments of both sets together.
     *
     * @param other the other set
     * @return the moments of the union
     */
    public Moments plus(Moments other) {
        if (count == 0) {
            return other;
        }
        if (other.count == 0) {
            return this;
        }
        long all = count + other.count;
        double distance = other.mean - mean;
        return new Moments(
                all,
                mean + distance * other.count / all,
                squares + other.squares + distance * distance * ((double) count * other.count / all));
    }

    /**
     * Returns the sample variance, with count - 1 in the denominator.
     *
     * @return in the squared unit of the values, at least 0
     * @throws IllegalStateException if there are fewer than two values
     */
    public double variance() {
        if (count < 2) {
            throw new IllegalStateException("a variance needs at least two values: " + count);
        }
        return squares / (count - 1);
    }

    /**
     * Returns the sample standard deviation.
     *
     * @return in the unit of the values, at least 0
     * @throws IllegalStateException if there are fewer than two values
     */
    public double standardDeviation() {
        return Math.sqrt(variance());
    }
}
