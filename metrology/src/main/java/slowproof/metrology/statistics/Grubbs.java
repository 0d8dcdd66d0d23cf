package slowproof.metrology.statistics;

import slowproof.metrology.Check;
import slowproof.metrology.Distributions;

/**
 * Grubbs' test whether the value farthest from the mean is too far for normal readings (ISO 5725-2, one
 * outlying value; from memory).
 */
public final class Grubbs {

    private Grubbs() {}

    /**
     * The value farthest from the mean.
     *
     * @param statistic its distance from the mean in standard deviations, dimensionless, at least 0
     * @param index where it stands, from 0; the first of several that are equally far
     */
    public record Farthest(double statistic, int index) {}

    /**
     * Returns the largest |x - mean|/s.
     *
     * @param values at least three, finite, any unit; not modified
     * @return the statistic and the place of the value; statistic 0 at index 0 when all values are equal
     * @throws IllegalArgumentException if there are fewer than three values or one is not finite
     */
    public static Farthest statistic(double[] values) {
        if (values.length < 3) {
            throw new IllegalArgumentException("Grubbs' test needs at least three values: " + values.length);
        }
        double mean = Statistics.mean(values);
        double deviation = Statistics.standardDeviation(values);
        int index = 0;
        for (int i = 1; i < values.length; i++) {
            if (Math.abs(values[i] - mean) > Math.abs(values[index] - mean)) {
                index = i;
            }
        }
        return new Farthest(deviation == 0 ? 0 : Math.abs(values[index] - mean) / deviation, index);
    }

    /**
     * Returns the value that the statistic exceeds by chance with probability of at most {@code alpha}, whichever
     * the side: (n - 1)/sqrt(n) sqrt(t^2/(n - 2 + t^2)), t being Student's upper alpha/(2n) point with n - 2
     * degrees of freedom.
     *
     * @param alpha strictly between 0 and 1: 0.05 marks a straggler, 0.01 an outlier
     * @param n number of values, at least 3
     * @return dimensionless, above 0
     * @throws IllegalArgumentException if an argument is outside its range
     */
    public static double criticalValue(double alpha, int n) {
        Check.openProbability(alpha, "level of the test");
        if (n < 3) {
            throw new IllegalArgumentException("Grubbs' test needs at least three values: " + n);
        }
        double t = Distributions.studentQuantile(alpha / (2.0 * n), n - 2.0);
        return (n - 1) / Math.sqrt(n) * Math.sqrt(t * t / (n - 2 + t * t));
    }

    /**
     * Returns the probability that normal readings give a statistic of at least this, whichever the side, or a bound
     * slightly above it.
     *
     * @param statistic at least 0, at most (n - 1)/sqrt(n)
     * @param n number of values, at least 3
     * @return 0 to 1, dimensionless
     * @throws IllegalArgumentException if an argument is outside its range
     */
    public static double pValue(double statistic, int n) {
        if (n < 3) {
            throw new IllegalArgumentException("Grubbs' test needs at least three values: " + n);
        }
        // the largest possible statistic may be exceeded by rounding
        double room = (n - 1.0) * (n - 1.0) - n * statistic * statistic;
        if (!(statistic >= 0 && room >= -1e-9 * n * n)) {
            throw new IllegalArgumentException("statistic must be from 0 to (n - 1)/sqrt(n): " + statistic);
        }
        double t = room <= 0 ? Double.POSITIVE_INFINITY : statistic * Math.sqrt(n * (n - 2.0) / room);
        return Math.min(1, 2.0 * n * Distributions.studentCdf(-t, n - 2.0));
    }
}
