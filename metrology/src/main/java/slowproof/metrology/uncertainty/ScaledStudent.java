package slowproof.metrology.uncertainty;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;
import org.apache.commons.rng.sampling.distribution.TSampler;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;

/**
 * Student's t, shifted and scaled: a mean of few readings, or a statement with its degrees of freedom
 * (JCGM 101:2008, 6.4.9).
 *
 * <p>The law of propagation takes the scale s/sqrt(n) as standard uncertainty, together with the degrees of
 * freedom; the standard deviation of the distribution is larger by sqrt(nu/(nu - 2)).
 *
 * @param estimate in the unit of the quantity, finite
 * @param standardUncertainty the scale, in the unit of the quantity, at least 0
 * @param degreesOfFreedom dimensionless, above 0 and finite
 */
public record ScaledStudent(double estimate, double standardUncertainty, double degreesOfFreedom)
        implements InputDistribution {

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException if a value is outside its range
     */
    public ScaledStudent {
        Check.finite(estimate, "estimate");
        Check.notNegative(standardUncertainty, "standard uncertainty");
        Check.positive(degreesOfFreedom, "degrees of freedom");
    }

    @Override
    public Shape shape() {
        return Shape.STUDENT;
    }

    @Override
    public double standardDeviation() {
        if (standardUncertainty == 0) {
            return 0;
        }
        return degreesOfFreedom <= 2
                ? Double.POSITIVE_INFINITY
                : standardUncertainty * Math.sqrt(degreesOfFreedom / (degreesOfFreedom - 2));
    }

    @Override
    public double divisor() {
        return 1;
    }

    @Override
    public double quantile(double p) {
        Check.openProbability(p, "probability");
        return estimate + standardUncertainty * Distributions.studentQuantile(p, degreesOfFreedom);
    }

    @Override
    public ContinuousSampler sampler(UniformRandomProvider random) {
        ContinuousSampler standard = TSampler.of(random, degreesOfFreedom);
        return () -> estimate + standardUncertainty * standard.sample();
    }
}
