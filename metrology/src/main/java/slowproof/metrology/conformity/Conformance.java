package slowproof.metrology.conformity;

import slowproof.metrology.Check;
import slowproof.metrology.Distributions;

/**
 * Probability that a quantity lies inside its limits, given what was measured (JCGM 106:2012, clause 7;
 * clause from memory).
 */
public final class Conformance {

    private Conformance() {}

    /**
     * Returns the probability that a quantity lies between -M and +M: T((M - m)/u) - T((-M - m)/u), T being the
     * distribution function of Student's t.
     *
     * @param mean best estimate m, any sign
     * @param standardUncertainty u in the unit of the estimate, at least 0; with 0 the answer is 1 inside or on
     *     the limit and 0 outside
     * @param degreesOfFreedom of u, dimensionless, above 0; infinity gives the normal distribution
     * @param limit M in the unit of the estimate, at least 0
     * @return 0 to 1, dimensionless
     * @throws IllegalArgumentException if an argument is NaN or outside its range
     */
    public static double probability(double mean, double standardUncertainty, double degreesOfFreedom, double limit) {
        Check.finite(mean, "mean");
        Check.notNegative(standardUncertainty, "standard uncertainty");
        Check.degreesOfFreedom(degreesOfFreedom);
        Check.notNegative(limit, "limit");
        double distance = Math.abs(mean);
        if (standardUncertainty == 0) {
            return distance <= limit ? 1 : 0;
        }
        // on the side where both terms are lower tails, so that a small probability keeps its digits
        return Distributions.studentCdf((limit - distance) / standardUncertainty, degreesOfFreedom)
                - Distributions.studentCdf((-limit - distance) / standardUncertainty, degreesOfFreedom);
    }
}
