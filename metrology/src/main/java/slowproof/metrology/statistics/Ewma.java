package slowproof.metrology.statistics;

import java.util.OptionalInt;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;
import slowproof.metrology.Interval;

/**
 * Chart of the exponentially weighted moving average z = weight x + (1 - weight) z, started at the target (NIST/SEMATECH
 * e-Handbook 6.3.2.4, from memory). Its limits open with time towards their final width.
 */
public final class Ewma {
    private final double[] averages;
    private final double target;
    private final double standardDeviation;
    private final double weight;
    private final double factor;

    private Ewma(double[] averages, double target, double standardDeviation, double weight, double factor) {
        this.averages = averages;
        this.target = target;
        this.standardDeviation = standardDeviation;
        this.weight = weight;
        this.factor = factor;
    }

    /**
     * Runs the chart over a sequence of values.
     *
     * @param values in time order, finite; not modified
     * @param target wanted mean, in the unit of the values
     * @param standardDeviation scatter of a value, above 0, in its unit
     * @param weight of the newest value, above 0 and at most 1, dimensionless
     * @param factor width of the limits in standard deviations of the average, above 0, dimensionless
     * @return the chart
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static Ewma of(double[] values, double target, double standardDeviation, double weight, double factor) {
        Check.allFinite(values, "values");
        Check.finite(target, "target");
        Check.positive(standardDeviation, "standard deviation");
        checkWeight(weight);
        Check.positive(factor, "factor");
        double[] averages = new double[values.length];
        double average = target;
        for (int i = 0; i < values.length; i++) {
            average += weight * (values[i] - average);
            averages[i] = average;
        }
        return new Ewma(averages, target, standardDeviation, weight, factor);
    }

    /**
     * The average after a value.
     *
     * @param index of the value, from 0
     * @return in the unit of the values
     */
    public double average(int index) {
        return averages[index];
    }

    /**
     * Limits of the average after a value.
     *
     * @param index of the value, from 0
     * @return symmetric about the target, in the unit of the values
     */
    public Interval limits(int index) {
        double left = FastMath.pow(1 - weight, 2 * (index + 1));
        double half = factor * standardDeviation * Math.sqrt(weight / (2 - weight) * (1 - left));
        return new Interval(target - half, target + half);
    }

    /**
     * First value after which the average lies outside its limits.
     *
     * @return its index, from 0, or empty
     */
    public OptionalInt firstSignal() {
        for (int i = 0; i < averages.length; i++) {
            if (!limits(i).contains(averages[i])) {
                return OptionalInt.of(i);
            }
        }
        return OptionalInt.empty();
    }

    static void checkWeight(double weight) {
        if (!(weight > 0 && weight <= 1)) {
            throw new IllegalArgumentException("weight must be above 0 and at most 1: " + weight);
        }
    }
}
