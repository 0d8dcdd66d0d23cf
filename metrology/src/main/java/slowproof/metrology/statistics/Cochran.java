package slowproof.metrology.statistics;

import slowproof.metrology.Check;
import slowproof.metrology.Distributions;

/**
 * Cochran's test whether the largest of several variances is too large for equal true scatter (ISO 5725-2,
 * from memory). It asks for groups of the same size.
 */
public final class Cochran {

    private Cochran() {}

    /**
     * Returns the largest variance over the sum of all.
     *
     * @param variances at least two, finite, at least 0, in one unit; not modified
     * @return 1/p to 1 for p groups, dimensionless; 1/p when all variances are 0, as they are then equal
     * @throws IllegalArgumentException if there are fewer than two variances or one is negative or not finite
     */
    public static double statistic(double[] variances) {
        if (variances.length < 2) {
            throw new IllegalArgumentException("Cochran's test needs at least two variances: " + variances.length);
        }
        double largest = 0;
        for (double variance : variances) {
            largest = Math.max(largest, Check.notNegative(variance, "variance"));
        }
        if (largest == 0) {
            return 1.0 / variances.length;
        }
        double sum = 0;
        for (double variance : variances) {
            sum += variance / largest;
        }
        return 1 / sum;
    }

    /**
     * Returns the value that the statistic exceeds by chance with probability of at most {@code alpha}:
     * 1/(1 + (p - 1)/F), F being the upper alpha/p point with n - 1 and (p - 1)(n - 1) degrees of freedom.
     *
     * @param alpha strictly between 0 and 1: 0.05 marks a straggler, 0.01 an outlier
     * @param groups number of groups p, at least 2
     * @param perGroup readings in each group n, at least 2
     * @return dimensionless, 1/p to 1
     * @throws IllegalArgumentException if an argument is outside its range
     */
    public static double criticalValue(double alpha, int groups, int perGroup) {
        Check.openProbability(alpha, "level of the test");
        if (groups < 2 || perGroup < 2) {
            throw new IllegalArgumentException(
                    "Cochran's test needs at least 2 groups of 2 readings: " + groups + " groups of " + perGroup);
        }
        double own = perGroup - 1.0;
        double others = (groups - 1.0) * own;
        double ratio = Distributions.fQuantile(1 - alpha / groups, own, others);
        return 1 / (1 + (groups - 1) / ratio);
    }

    /**
     * Returns the probability that equal true scatter gives a statistic of at least this, or a bound slightly above it.
     *
     * @param statistic largest variance over the sum of all, 1/p to 1
     * @param groups number of groups p, at least 2
     * @param perGroup readings in each group, at least 2
     * @return 0 to 1, dimensionless
     * @throws IllegalArgumentException if an argument is outside its range
     */
    public static double pValue(double statistic, int groups, int perGroup) {
        if (groups < 2 || perGroup < 2) {
            throw new IllegalArgumentException(
                    "Cochran's test needs at least 2 groups of 2 readings: " + groups + " groups of " + perGroup);
        }
        if (!(statistic >= 1.0 / groups && statistic <= 1)) {
            throw new IllegalArgumentException("statistic must be from 1/groups to 1: " + statistic);
        }
        double own = perGroup - 1.0;
        // upper tail of F = (groups - 1) C/(1 - C) as the lower tail of its reciprocal
        double reciprocal = (1 - statistic) / ((groups - 1) * statistic);
        return Math.min(1, groups * Distributions.fCdf(reciprocal, (groups - 1.0) * own, own));
    }
}
