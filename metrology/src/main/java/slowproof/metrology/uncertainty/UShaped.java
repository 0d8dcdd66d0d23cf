package slowproof.metrology.uncertainty;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;
import slowproof.metrology.Check;

/**
 * U-shaped (arcsine) distribution of a quantity that swings between limits like a sine, such as a controlled
 * temperature (JCGM 101:2008, 6.4.6).
 *
 * @param low lower limit in the unit of the quantity, finite
 * @param high upper limit, not below the lower
 */
public record UShaped(double low, double high) implements InputDistribution {

    private static final double DIVISOR = Math.sqrt(2);

    /**
     * Checks the limits.
     *
     * @throws IllegalArgumentException if one is not finite or the upper is below the lower
     */
    public UShaped {
        Limits.check(low, high);
    }

    @Override
    public Shape shape() {
        return Shape.U_SHAPED;
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
        return estimate() - Limits.halfWidth(low, high) * Math.cos(Math.PI * p);
    }

    @Override
    public ContinuousSampler sampler(UniformRandomProvider random) {
        double middle = estimate();
        double half = Limits.halfWidth(low, high);
        return () -> middle + half * Math.sin(2 * Math.PI * random.nextDouble());
    }
}
