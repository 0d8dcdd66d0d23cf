package slowproof.metrology.statistics;

import org.hipparchus.stat.StatUtils;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/** Mean and scatter of readings, computed in two passes so that a large common part does not cost digits. */
public final class Statistics {

    private Statistics() {}

    /**
     * Returns the arithmetic mean.
     *
     * @param values at least one, finite, any unit; not modified
     * @return in the unit of the values; exactly the common value when all are equal
     * @throws IllegalArgumentException if there is no value or one is not finite
     */
    public static double mean(double[] values) {
        if (values.length == 0) {
            throw new IllegalArgumentException("a mean needs at least one value");
        }
        Check.allFinite(values, "values");
        return allEqual(values) ? values[0] : StatUtils.mean(values);
    }

    /**
     * Returns the sample standard deviation, with n - 1 in the denominator.
     *
     * @param values at least two, finite, any unit; not modified
     * @return in the unit of the values, at least 0; exactly 0 when all are equal
     * @throws IllegalArgumentException if there are fewer than two values or one is not finite
     */
    public static double standardDeviation(double[] values) {
        if (values.length < 2) {
            throw new IllegalArgumentException("a standard deviation needs at least two values: " + values.length);
        }
        Check.allFinite(values, "values");
        // rounding of the mean must not turn equal readings into scatter
        return allEqual(values) ? 0 : Math.sqrt(StatUtils.variance(values));
    }

    /**
     * Returns the two-sided confidence interval of the true mean of independent normal readings:
     * mean +- t s/sqrt(n).
     *
     * @param values at least two, finite, any unit; not modified
     * @param confidence strictly between 0 and 1, such as 0.95
     * @return in the unit of the values
     * @throws IllegalArgumentException if there are fewer than two values, one is not finite, or the confidence is
     *     not strictly between 0 and 1
     */
    public static Interval meanInterval(double[] values, double confidence) {
        double p = (1 + Check.openProbability(confidence, "confidence")) / 2;
        double deviation = standardDeviation(values);
        double half = Distributions.studentQuantile(p, values.length - 1.0) * deviation / Math.sqrt(values.length);
        double mean = mean(values);
        return new Interval(mean - half, mean + half);
    }

    /**
     * Returns the correlation of each value with the next: the sum of products of neighbouring deviations from the
     * mean over the sum of their squares.
     *
     * @param values at least two, finite, not all equal, in time order; not modified
     * @return -1 to 1, dimensionless
     * @throws IllegalArgumentException if there are fewer than two values, one is not finite, or all are equal
     */
    public static double autocorrelation(double[] values) {
        if (standardDeviation(values) == 0) {
            throw new IllegalArgumentException("equal values have no correlation");
        }
        double mean = mean(values);
        double products = 0;
        double squares = 0;
        for (int i = 0; i < values.length; i++) {
            double deviation = values[i] - mean;
            squares += deviation * deviation;
            products += i == 0 ? 0 : deviation * (values[i - 1] - mean);
        }
        return products / squares;
    }

    private static boolean allEqual(double[] values) {
        for (double value : values) {
            if (value != values[0]) {
                return false;
            }
        }
        return true;
    }
}
