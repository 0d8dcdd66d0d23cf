package slowproof.metrology.conformity;

import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

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
        Check.notNegative(limit, "limit");
        return probability(mean, standardUncertainty, degreesOfFreedom, new Interval(-limit, limit));
    }

    /**
     * Returns the probability that a quantity lies in an interval.
     *
     * @param mean best estimate, any sign
     * @param standardUncertainty in the unit of the estimate, at least 0; with 0 the answer is 1 inside or on a limit
     *     and 0 outside
     * @param degreesOfFreedom of the uncertainty, dimensionless, above 0; infinity gives the normal distribution
     * @param tolerance in the unit of the estimate; an infinite end makes a one-sided limit
     * @return 0 to 1, dimensionless
     * @throws IllegalArgumentException if an argument is NaN or outside its range
     */
    public static double probability(
            double mean, double standardUncertainty, double degreesOfFreedom, Interval tolerance) {
        Check.finite(mean, "mean");
        Check.notNegative(standardUncertainty, "standard uncertainty");
        Check.degreesOfFreedom(degreesOfFreedom);
        if (standardUncertainty == 0) {
            return tolerance.contains(mean) ? 1 : 0;
        }
        double toLow = (tolerance.low() - mean) / standardUncertainty;
        double toHigh = (tolerance.high() - mean) / standardUncertainty;
        // on the side where both terms are lower tails, so that a small probability keeps its digits
        return toLow + toHigh < 0
                ? between(toLow, toHigh, degreesOfFreedom)
                : between(-toHigh, -toLow, degreesOfFreedom);
    }

    /**
     * Returns the probability that a quantity lies outside an interval: the risk of the consumer if it is accepted
     * (JCGM 106:2012, 9.3, specific risk, from memory). Keeps its digits where it is small.
     *
     * @param mean best estimate, any sign
     * @param standardUncertainty in the unit of the estimate, at least 0
     * @param degreesOfFreedom of the uncertainty, dimensionless, above 0; infinity gives the normal distribution
     * @param tolerance in the unit of the estimate; an infinite end makes a one-sided limit
     * @return 0 to 1, dimensionless
     * @throws IllegalArgumentException if an argument is NaN or outside its range
     */
    public static double probabilityOutside(
            double mean, double standardUncertainty, double degreesOfFreedom, Interval tolerance) {
        Check.finite(mean, "mean");
        Check.notNegative(standardUncertainty, "standard uncertainty");
        Check.degreesOfFreedom(degreesOfFreedom);
        if (standardUncertainty == 0) {
            return tolerance.contains(mean) ? 0 : 1;
        }
        return Distributions.studentCdf((tolerance.low() - mean) / standardUncertainty, degreesOfFreedom)
                + Distributions.studentCdf((mean - tolerance.high()) / standardUncertainty, degreesOfFreedom);
    }

    private static double between(double from, double to, double degreesOfFreedom) {
        return Distributions.studentCdf(to, degreesOfFreedom) - Distributions.studentCdf(from, degreesOfFreedom);
    }
}
