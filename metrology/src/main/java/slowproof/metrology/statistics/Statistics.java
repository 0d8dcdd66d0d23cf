package slowproof.metrology.statistics;

import org.hipparchus.stat.StatUtils;
import slowproof.metrology.Check;

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

    private static boolean allEqual(double[] values) {
        for (double value : values) {
            if (value != values[0]) {
                return false;
            }
        }
        return true;
    }
}
