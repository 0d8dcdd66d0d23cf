package slowproof.metrology.uncertainty;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;

/**
 * Normal distribution: best estimate and standard uncertainty are known, nothing else (JCGM 101:2008, 6.4.7).
 *
 * @param estimate in the unit of the quantity, finite
 * @param standardUncertainty in the unit of the quantity, at least 0; 0 makes a constant
 * @param divisor coverage factor of the statement it was taken from, dimensionless, above 0; 1 if it was a
 *     standard uncertainty
 */
public record Normal(double estimate, double standardUncertainty, double divisor) implements InputDistribution {

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException if a value is outside its range
     */
    public Normal {
        Check.finite(estimate, "estimate");
        Check.notNegative(standardUncertainty, "standard uncertainty");
        Check.positive(divisor, "coverage factor");
    }

    /**
     * Returns a distribution with a stated standard uncertainty.
     *
     * @param estimate in the unit of the quantity
     * @param standardUncertainty in the unit of the quantity, at least 0
     * @return the distribution
     */
    public static Normal of(double estimate, double standardUncertainty) {
        return new Normal(estimate, standardUncertainty, 1);
    }

    /**
     * Returns a distribution from a certificate that states U and k.
     *
     * @param estimate in the unit of the quantity
     * @param expandedUncertainty U in the unit of the quantity, at least 0
     * @param coverageFactor k, dimensionless, above 0
     * @return the distribution with standard uncertainty U/k
     */
    public static Normal expanded(double estimate, double expandedUncertainty, double coverageFactor) {
        Check.positive(coverageFactor, "coverage factor");
        return new Normal(estimate, expandedUncertainty / coverageFactor, coverageFactor);
    }

    @Override
    public Shape shape() {
        return Shape.NORMAL;
    }

    @Override
    public double quantile(double p) {
        return estimate + standardUncertainty * Distributions.normalQuantile(Check.openProbability(p, "probability"));
    }

    @Override
    public ContinuousSampler sampler(UniformRandomProvider random) {
        ContinuousSampler standard = ZigguratSampler.NormalizedGaussian.of(random);
        return () -> estimate + standardUncertainty * standard.sample();
    }
}
