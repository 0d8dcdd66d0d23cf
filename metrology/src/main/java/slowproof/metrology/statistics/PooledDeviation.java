package slowproof.metrology.statistics;

import java.util.List;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/**
 * A standard deviation of repeatability with its degrees of freedom, pooled over groups of equal true scatter
 * (ISO 5725-2, groups in the place of laboratories; from memory).
 *
 * @param standardDeviation s_r in the unit of the readings, finite, at least 0
 * @param degreesOfFreedom dimensionless, above 0
 */
public record PooledDeviation(double standardDeviation, double degreesOfFreedom) {

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException if the deviation is negative or not finite, or the degrees of freedom are
     *     not above 0
     */
    public PooledDeviation {
        Check.notNegative(standardDeviation, "standard deviation");
        Check.degreesOfFreedom(degreesOfFreedom);
    }

    /**
     * Pools groups: s_r = sqrt( sum (n - 1) s^2 / sum (n - 1) ). A group of one value or none adds nothing.
     *
     * @param groups readings of each group, finite, all in one unit; not modified
     * @return the pooled deviation
     * @throws IllegalArgumentException if no group has two values or a value is not finite
     */
    public static PooledDeviation of(List<double[]> groups) {
        double squares = 0;
        double degreesOfFreedom = 0;
        for (double[] group : groups) {
            Check.allFinite(group, "values");
            if (group.length >= 2) {
                double deviation = Statistics.standardDeviation(group);
                squares += (group.length - 1) * deviation * deviation;
                degreesOfFreedom += group.length - 1;
            }
        }
        if (degreesOfFreedom == 0) {
            throw new IllegalArgumentException("a pooled standard deviation needs a group with at least two values");
        }
        return new PooledDeviation(Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom);
    }

    /**
     * Pools standard deviations that are already computed, weighted by their degrees of freedom.
     *
     * @param parts at least one, with finite degrees of freedom, all in one unit
     * @return the pooled deviation
     * @throws IllegalArgumentException if there is no part or one has infinite degrees of freedom
     */
    public static PooledDeviation pool(List<PooledDeviation> parts) {
        double squares = 0;
        double degreesOfFreedom = 0;
        for (PooledDeviation part : parts) {
            squares += part.degreesOfFreedom * part.standardDeviation * part.standardDeviation;
            degreesOfFreedom += Check.positive(part.degreesOfFreedom, "degrees of freedom");
        }
        if (degreesOfFreedom == 0) {
            throw new IllegalArgumentException("nothing to pool");
        }
        return new PooledDeviation(Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom);
    }

    /**
     * Returns the two-sided confidence interval of the true standard deviation of normal readings, with equal
     * tails: s sqrt(nu / chi-squared at (1 + p)/2 and at (1 - p)/2).
     *
     * @param confidence strictly between 0 and 1, such as 0.95
     * @return in the unit of the readings
     * @throws IllegalArgumentException if the confidence is not strictly between 0 and 1
     */
    public Interval interval(double confidence) {
        Check.openProbability(confidence, "confidence");
        if (degreesOfFreedom == Double.POSITIVE_INFINITY) {
            return new Interval(standardDeviation, standardDeviation);
        }
        double tail = (1 - confidence) / 2;
        return new Interval(
                standardDeviation
                        * Math.sqrt(degreesOfFreedom / Distributions.chiSquaredQuantile(1 - tail, degreesOfFreedom)),
                standardDeviation
                        * Math.sqrt(degreesOfFreedom / Distributions.chiSquaredQuantile(tail, degreesOfFreedom)));
    }
}
