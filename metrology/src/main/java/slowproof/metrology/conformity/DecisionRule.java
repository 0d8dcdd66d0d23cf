package slowproof.metrology.conformity;

import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/** How a measured value, its uncertainty and the limits become a {@link Decision}. */
public enum DecisionRule {
    /**
     * Conforms when the probability of lying inside the limits is at least 0.95, does not conform when it is at
     * most 0.05, both tails counted (default rule of ISO 14253-1:2017, from memory).
     */
    PROBABILITY {
        @Override
        Decision checked(double mean, double u, double nu, double coverageProbability, Interval tolerance) {
            double inside = Conformance.probability(mean, u, nu, tolerance);
            if (inside >= ACCEPTING_PROBABILITY) {
                return Decision.CONFORMS;
            }
            return inside <= REJECTING_PROBABILITY ? Decision.DOES_NOT_CONFORM : Decision.UNDECIDED;
        }
    },

    /**
     * Guard band of one expanded uncertainty: conforms when the interval mean +/- U lies within the limits, does not
     * conform when it lies wholly beyond one (the rule of the older editions of ISO 14253-1, from memory).
     */
    EXPANDED {
        @Override
        Decision checked(double mean, double u, double nu, double coverageProbability, Interval tolerance) {
            double expanded = u == 0 ? 0 : u * Distributions.studentQuantile((1 + coverageProbability) / 2, nu);
            if (mean - expanded >= tolerance.low() && mean + expanded <= tolerance.high()) {
                return Decision.CONFORMS;
            }
            boolean beyond = mean + expanded < tolerance.low() || mean - expanded > tolerance.high();
            return beyond ? Decision.DOES_NOT_CONFORM : Decision.UNDECIDED;
        }
    },

    /**
     * Simple acceptance: the estimate alone is compared with the limits, a value on a limit being inside. The
     * uncertainty plays no part, and the risk of a wrong answer is up to one half (JCGM 106:2012, 8.2, from
     * memory).
     */
    SIMPLE {
        @Override
        Decision checked(double mean, double u, double nu, double coverageProbability, Interval tolerance) {
            return tolerance.contains(mean) ? Decision.CONFORMS : Decision.DOES_NOT_CONFORM;
        }
    };

    /** {@link #PROBABILITY} says "conforms" from this probability of lying inside on, dimensionless. */
    public static final double ACCEPTING_PROBABILITY = 0.95;

    /** {@link #PROBABILITY} says "does not conform" up to this probability of lying inside, dimensionless. */
    public static final double REJECTING_PROBABILITY = 0.05;

    /**
     * Decides whether a quantity lies between -limit and +limit.
     *
     * @param mean best estimate, any sign
     * @param standardUncertainty in the unit of the estimate, at least 0
     * @param degreesOfFreedom of the uncertainty, dimensionless, above 0, infinity allowed
     * @param coverageProbability of the expanded uncertainty, strictly between 0 and 1; used by
     *     {@link #EXPANDED} only, checked always
     * @param limit in the unit of the estimate, at least 0
     * @return the decision
     * @throws IllegalArgumentException if an argument is NaN or outside its range
     */
    public final Decision decide(
            double mean,
            double standardUncertainty,
            double degreesOfFreedom,
            double coverageProbability,
            double limit) {
        Check.notNegative(limit, "limit");
        return decide(mean, standardUncertainty, degreesOfFreedom, coverageProbability, new Interval(-limit, limit));
    }

    /**
     * Decides whether a quantity lies in an interval.
     *
     * @param mean best estimate, any sign
     * @param standardUncertainty in the unit of the estimate, at least 0
     * @param degreesOfFreedom of the uncertainty, dimensionless, above 0, infinity allowed
     * @param coverageProbability of the expanded uncertainty, strictly between 0 and 1; used by
     *     {@link #EXPANDED} only, checked always
     * @param tolerance in the unit of the estimate; an infinite end makes a one-sided limit
     * @return the decision
     * @throws IllegalArgumentException if an argument is NaN or outside its range
     */
    public final Decision decide(
            double mean,
            double standardUncertainty,
            double degreesOfFreedom,
            double coverageProbability,
            Interval tolerance) {
        Check.finite(mean, "mean");
        Check.notNegative(standardUncertainty, "standard uncertainty");
        Check.degreesOfFreedom(degreesOfFreedom);
        Check.openProbability(coverageProbability, "coverage probability");
        return checked(mean, standardUncertainty, degreesOfFreedom, coverageProbability, tolerance);
    }

    abstract Decision checked(double mean, double u, double nu, double coverageProbability, Interval tolerance);
}
