package slowproof.metrology.statistics;

import java.util.OptionalInt;
import slowproof.metrology.Check;

/**
 * Tabular two-sided CUSUM chart: sums of what the values exceed the target by, beyond an allowance, on either side
 * (NIST/SEMATECH e-Handbook 6.3.2.3, from memory).
 *
 * <p>{@link AverageRunLength} tells how often a chart cries wolf and how soon it sees a shift.
 */
public final class Cusum {
    private final double[] high;
    private final double[] low;
    private final double limit;

    private Cusum(double[] high, double[] low, double limit) {
        this.high = high;
        this.low = low;
        this.limit = limit;
    }

    /**
     * Runs the chart over a sequence of values.
     *
     * @param values in time order, finite; not modified
     * @param target wanted mean, in the unit of the values
     * @param allowance k, at least 0, in the unit of the values; half the shift to be found
     * @param limit h, above 0, in the unit of the values; a sum above it is a signal
     * @return the chart
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static Cusum of(double[] values, double target, double allowance, double limit) {
        Check.allFinite(values, "values");
        Check.finite(target, "target");
        Check.notNegative(allowance, "allowance");
        Check.positive(limit, "limit");
        double[] high = new double[values.length];
        double[] low = new double[values.length];
        double up = 0;
        double down = 0;
        for (int i = 0; i < values.length; i++) {
            up = Math.max(0, up + values[i] - target - allowance);
            down = Math.max(0, down + target - allowance - values[i]);
            high[i] = up;
            low[i] = down;
        }
        return new Cusum(high, low, limit);
    }

    /**
     * Sum against a mean above the target, after a value.
     *
     * @param index of the value, from 0
     * @return at least 0, in the unit of the values
     */
    public double high(int index) {
        return high[index];
    }

    /**
     * Sum against a mean below the target, after a value.
     *
     * @param index of the value, from 0
     * @return at least 0, in the unit of the values
     */
    public double low(int index) {
        return low[index];
    }

    /**
     * First value after which a sum lies above the limit.
     *
     * @return its index, from 0, or empty
     */
    public OptionalInt firstSignal() {
        for (int i = 0; i < high.length; i++) {
            if (high[i] > limit || low[i] > limit) {
                return OptionalInt.of(i);
            }
        }
        return OptionalInt.empty();
    }
}
