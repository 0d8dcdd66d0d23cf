package slowproof.metrology.uncertainty;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;

/**
 * What is known of an input quantity (JCGM 101:2008, 6.4; clauses here and in the implementations from memory).
 * All values carry the unit of the quantity.
 */
public sealed interface InputDistribution
        permits Normal, Rectangular, Triangular, Trapezoidal, CurvilinearTrapezoid, UShaped, ScaledStudent {

    /**
     * Returns the shape, for tables.
     *
     * @return the shape
     */
    Shape shape();

    /**
     * Returns the best estimate, the middle of the distribution.
     *
     * @return in the unit of the quantity
     */
    double estimate();

    /**
     * Returns the standard uncertainty that enters the law of propagation.
     *
     * @return in the unit of the quantity, at least 0
     */
    double standardUncertainty();

    /**
     * Returns the degrees of freedom of the standard uncertainty, as far as the distribution itself says.
     *
     * @return dimensionless, above 0, infinite unless the shape is Student's
     */
    default double degreesOfFreedom() {
        return Double.POSITIVE_INFINITY;
    }

    /**
     * Returns the standard deviation of the distribution itself. It is larger than the standard uncertainty for
     * Student's t only.
     *
     * @return in the unit of the quantity, at least 0, may be infinite
     */
    default double standardDeviation() {
        return standardUncertainty();
    }

    /**
     * Returns what the stated uncertainty (half-width, or expanded uncertainty) is divided by to give the standard
     * uncertainty.
     *
     * @return dimensionless, above 0
     */
    double divisor();

    /**
     * Returns the value that the quantity does not exceed with probability {@code p}.
     *
     * @param p strictly between 0 and 1
     * @return in the unit of the quantity
     * @throws IllegalArgumentException if {@code p} is not strictly between 0 and 1
     */
    double quantile(double p);

    /**
     * Starts a stream of random values.
     *
     * @param random where the randomness comes from
     * @return values in the unit of the quantity
     */
    ContinuousSampler sampler(UniformRandomProvider random);
}
