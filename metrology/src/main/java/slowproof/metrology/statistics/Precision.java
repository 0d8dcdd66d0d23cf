package slowproof.metrology.statistics;

import java.util.List;

/**
 * Repeatability and reproducibility of groups of readings (ISO 5725-2:2019, groups in the place of laboratories, clause
 * from memory): s_r within groups, s_L between groups, s_R^2 = s_r^2 + s_L^2. Groups may differ in size.
 *
 * @param mean mean of all readings
 * @param repeatability s_r, at least 0, in the unit of the readings
 * @param betweenGroups s_L, at least 0, in the unit of the readings; 0 when the group means scatter no more than s_r
 *     explains
 * @param repeatabilityDegreesOfFreedom dimensionless, at least 1
 * @param groups number of groups, at least 2
 * @param analysis the analysis of variance they come from
 */
public record Precision(
        double mean,
        double repeatability,
        double betweenGroups,
        int repeatabilityDegreesOfFreedom,
        int groups,
        OneWay analysis) {

    // 1.96 sqrt(2) = 2.77, rounded up as ISO 5725-6 does (from memory)
    private static final double LIMIT_FACTOR = 2.8;

    /**
     * Evaluates groups of readings.
     *
     * @param groups at least two, none empty, one with at least two readings, all in one unit; not modified
     * @return the precision
     * @throws IllegalArgumentException if there are too few groups or readings, or one is not finite
     */
    public static Precision of(List<double[]> groups) {
        OneWay analysis = OneWay.of(groups);
        return new Precision(
                analysis.grandMean(),
                Math.sqrt(analysis.withinMeanSquare()),
                Math.sqrt(analysis.betweenVariance()),
                analysis.withinDegreesOfFreedom(),
                groups.size(),
                analysis);
    }

    /**
     * Reproducibility standard deviation, of one reading in a group drawn at random.
     *
     * @return s_R, at least s_r, in the unit of the readings
     */
    public double reproducibility() {
        return Math.hypot(repeatability, betweenGroups);
    }

    /**
     * Difference that two readings of one group exceed in about 5 % of cases.
     *
     * @return r = 2.8 s_r, in the unit of the readings
     */
    public double repeatabilityLimit() {
        return LIMIT_FACTOR * repeatability;
    }

    /**
     * Difference that two readings of different groups exceed in about 5 % of cases.
     *
     * @return R = 2.8 s_R, in the unit of the readings
     */
    public double reproducibilityLimit() {
        return LIMIT_FACTOR * reproducibility();
    }
}
