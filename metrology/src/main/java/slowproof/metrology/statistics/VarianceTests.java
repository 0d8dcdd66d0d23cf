package slowproof.metrology.statistics;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;

/**
 * Tests whether several groups share one true scatter, for groups of any sizes of at least two readings (NIST/SEMATECH
 * e-Handbook 1.3.5.7 and 1.3.5.10, from memory). All results are dimensionless.
 */
public final class VarianceTests {
    private VarianceTests() {}

    /**
     * A test statistic with the probability that equal scatter gives one at least as large.
     *
     * @param statistic at least 0
     * @param pValue 0 to 1
     */
    public record Result(double statistic, double pValue) {}

    /**
     * Bartlett's test: powerful for normal readings, misled by others.
     *
     * @param groups at least two groups of at least two readings, no group without scatter; not modified
     * @return the statistic, about chi-squared with (groups - 1) degrees of freedom
     * @throws IllegalArgumentException if there are too few groups or readings, one is not finite, or a group has no
     *     scatter
     */
    public static Result bartlett(List<double[]> groups) {
        check(groups);
        double nu = 0;
        double pooled = 0;
        double logs = 0;
        double reciprocals = 0;
        for (double[] group : groups) {
            double own = group.length - 1.0;
            double deviation = Statistics.standardDeviation(group);
            if (deviation == 0) {
                throw new IllegalArgumentException("a group of equal readings has no variance to compare");
            }
            nu += own;
            pooled += own * deviation * deviation;
            logs += own * 2 * FastMath.log(deviation);
            reciprocals += 1 / own;
        }
        double k = groups.size() - 1.0;
        double correction = 1 + (reciprocals - 1 / nu) / (3 * k);
        double statistic = Math.max(0, (nu * FastMath.log(pooled / nu) - logs) / correction);
        return new Result(statistic, 1 - Distributions.chiSquaredCdf(statistic, k));
    }

    /**
     * Levene's test about the medians (Brown and Forsythe): holds for readings that are not normal too.
     *
     * @param groups at least two groups of at least two readings; not modified
     * @return the statistic, about F with (groups - 1) and (readings - groups) degrees of freedom; 0 when no group has
     *     any scatter
     * @throws IllegalArgumentException if there are too few groups or readings, or one is not finite
     */
    public static Result levene(List<double[]> groups) {
        check(groups);
        OneWay oneWay = OneWay.of(groups.stream().map(VarianceTests::distances).toList());
        if (oneWay.betweenSumOfSquares() == 0) {
            return new Result(0, 1);
        }
        return new Result(oneWay.f(), oneWay.pValue());
    }

    private static double[] distances(double[] group) {
        double[] ordered = group.clone();
        Arrays.sort(ordered);
        int middle = ordered.length / 2;
        double median = ordered.length % 2 == 1 ? ordered[middle] : ordered[middle - 1] / 2 + ordered[middle] / 2;
        return Arrays.stream(group).map(v -> Math.abs(v - median)).toArray();
    }

    private static void check(List<double[]> groups) {
        if (groups.size() < 2) {
            throw new IllegalArgumentException("scatter is compared between at least two groups: " + groups.size());
        }
        for (double[] group : groups) {
            Check.allFinite(group, "values");
            if (group.length < 2) {
                throw new IllegalArgumentException("every group needs at least two readings: " + group.length);
            }
        }
    }
}
