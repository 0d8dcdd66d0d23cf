package slowproof.metrology.uncertainty;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;
import slowproof.metrology.Check;

/**
 * Rectangular distribution: the limits are known, nothing else (JCGM 101:2008, 6.4.2).
 *
 * @param low lower limit in the unit of the quantity, finite
 * @param high upper limit, not below the lower
 */
public record Rectangular(double low, double high) implements InputDistribution {

    private static final double DIVISOR = Math.sqrt(3);

    /**
     * Checks the limits.
     *
     * @throws IllegalArgumentException if one is not finite or the upper is below the lower
     */
    public Rectangular {
        Limits.check(low, high);
    }

    /**
     * Returns a distribution about an estimate.
     *
     * @param estimate in the unit of the quantity
     * @param halfWidth in the unit of the quantity, at least 0
     * @return the distribution
     */
    public static Rectangular about(double estimate, double halfWidth) {
        return new Rectangular(estimate - halfWidth, estimate + halfWidth);
    }

    @Override
    public Shape shape() {
        return Shape.RECTANGULAR;
    }

    @Override
    public double estimate() {
        return Limits.middle(low, high);
    }

    @Override
    public double standardUncertainty() {
        return Limits.halfWidth(low, high) / DIVISOR;
    }

    @Override
    public double divisor() {
        return DIVISOR;
    }

    @Override
    public double quantile(double p) {
        Check.openProbability(p, "probability");
        return low * (1 - p) + high * p;
    }

    @Override
    public ContinuousSampler sampler(UniformRandomProvider random) {
        double width = high - low;
        return () -> low + width * random.nextDouble();
    }
}
