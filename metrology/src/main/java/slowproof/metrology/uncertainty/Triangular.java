package slowproof.metrology.uncertainty;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;

/**
 * Symmetric triangular distribution, the sum of two equal rectangular ones (JCGM 101:2008, 6.4.5).
 *
 * @param low lower limit in the unit of the quantity, finite
 * @param high upper limit, not below the lower
 */
public record Triangular(double low, double high) implements InputDistribution {

    private static final double DIVISOR = Math.sqrt(6);

    /**
     * Checks the limits.
     *
     * @throws IllegalArgumentException if one is not finite or the upper is below the lower
     */
    public Triangular {
        Limits.check(low, high);
    }

    @Override
    public Shape shape() {
        return Shape.TRIANGULAR;
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
        return new Trapezoidal(low, high, 0).quantile(p);
    }

    @Override
    public ContinuousSampler sampler(UniformRandomProvider random) {
        return new Trapezoidal(low, high, 0).sampler(random);
    }
}
