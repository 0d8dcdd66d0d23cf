package slowproof.metrology.statistics;

import java.util.List;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;

/**
 * Mandel's consistency statistics of groups of readings: h compares group means, k compares scatters (ISO 5725-2:2019,
 * clause from memory; J. Mandel). Dimensionless.
 */
public final class Mandel {
    private Mandel() {}

    /**
     * Consistency of the means: each group mean less the mean of group means, over the standard deviation of the group
     * means.
     *
     * @param groups at least three, none empty, all in one unit; not modified
     * @return one h per group, of either sign
     * @throws IllegalArgumentException if there are too few groups, a reading is not finite, or all means are equal
     */
    public static double[] h(List<double[]> groups) {
        if (groups.size() < 3) {
            throw new IllegalArgumentException("consistency is judged from at least three groups: " + groups.size());
        }
        double[] means = groups.stream().mapToDouble(Statistics::mean).toArray();
        double mean = Statistics.mean(means);
        double deviation = Statistics.standardDeviation(means);
        if (deviation == 0) {
            throw new IllegalArgumentException("all group means are equal: no scale to compare them by");
        }
        double[] result = new double[means.length];
        for (int i = 0; i < result.length; i++) {
            result[i] = (means[i] - mean) / deviation;
        }
        return result;
    }

    /**
     * Consistency of the scatters: each standard deviation over the root mean square of all.
     *
     * @param groups at least two groups of at least two readings, all in one unit; not modified
     * @return one k per group, at least 0
     * @throws IllegalArgumentException if there are too few groups or readings, one is not finite, or no group has any
     *     scatter
     */
    public static double[] k(List<double[]> groups) {
        if (groups.size() < 2) {
            throw new IllegalArgumentException("scatter is compared between at least two groups: " + groups.size());
        }
        double[] result =
                groups.stream().mapToDouble(Statistics::standardDeviation).toArray();
        double squares = 0;
        for (double deviation : result) {
            squares += deviation * deviation;
        }
        if (squares == 0) {
            throw new IllegalArgumentException("no group has any scatter to compare");
        }
        double root = Math.sqrt(squares / result.length);
        for (int i = 0; i < result.length; i++) {
            result[i] /= root;
        }
        return result;
    }

    /**
     * Value that |h| of one group exceeds by chance with probability alpha.
     *
     * @param alpha above 0 and below 1: 0.05 marks a straggler, 0.01 an outlier
     * @param groups number of groups, at least 3
     * @return above 0
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double hCritical(double alpha, int groups) {
        Check.openProbability(alpha, "level of the test");
        if (groups < 3) {
            throw new IllegalArgumentException("consistency is judged from at least three groups: " + groups);
        }
        double t = Distributions.studentQuantile(1 - alpha / 2, groups - 2.0);
        return (groups - 1) * t / Math.sqrt(groups * (t * t + groups - 2));
    }

    /**
     * Value that k of one group exceeds by chance with probability alpha.
     *
     * @param alpha above 0 and below 1: 0.05 marks a straggler, 0.01 an outlier
     * @param groups number of groups, at least 2
     * @param perGroup readings in each group, at least 2
     * @return above 0
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double kCritical(double alpha, int groups, int perGroup) {
        Check.openProbability(alpha, "level of the test");
        if (groups < 2 || perGroup < 2) {
            throw new IllegalArgumentException(
                    "scatter is compared between at least 2 groups of 2: " + groups + " of " + perGroup);
        }
        double own = perGroup - 1.0;
        double f = Distributions.fQuantile(1 - alpha, own, (groups - 1) * own);
        return Math.sqrt(groups / (1 + (groups - 1) / f));
    }
}
