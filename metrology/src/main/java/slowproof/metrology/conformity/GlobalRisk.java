package slowproof.metrology.conformity;

import java.util.stream.DoubleStream;
import org.hipparchus.analysis.UnivariateFunction;
import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;
import slowproof.metrology.Check;
import slowproof.metrology.Interval;

/**
 * Risks of wrong decisions over all items of a process, with a stated prior (JCGM 106:2012, 9.5, from memory).
 *
 * @param conforming probability that an item conforms at all, 0 to 1
 * @param consumer probability that an item is accepted and does not conform, 0 to 1
 * @param producer probability that an item is rejected and conforms, 0 to 1
 */
public record GlobalRisk(double conforming, double consumer, double producer) {

    // beyond eight and a half standard deviations a normal distribution has 2e-17 of its probability
    private static final double REACH = 8.5;
    private static final int PANELS_PER_PART = 8;
    // points and weights on [-1, 1]
    private static final GaussIntegrator LEGENDRE = new GaussIntegratorFactory().legendre(20);

    /**
     * Computes the risks for a normal prior and a normal error of measurement, to about 1e-12.
     *
     * @param prior distribution of the items
     * @param standardUncertainty of each measurement, in the unit of the quantity, above 0
     * @param tolerance the limits of conformity; an infinite end makes a one-sided limit
     * @param acceptance the measured values that are accepted; an infinite end makes a one-sided limit
     * @return the risks
     * @throws IllegalArgumentException if the standard uncertainty is not above 0 and finite
     */
    public static GlobalRisk of(
            NormalPrior prior, double standardUncertainty, Interval tolerance, Interval acceptance) {
        Check.positive(standardUncertainty, "standard uncertainty");
        // in standard deviations of the prior about its mean
        Interval limits = scaled(tolerance, prior);
        Interval accepted = scaled(acceptance, prior);
        double error = standardUncertainty / prior.standardDeviation();
        UnivariateFunction acceptedAndThere = z -> density(z) * inside(z, error, accepted);
        UnivariateFunction rejectedAndThere = z -> density(z) * outside(z, error, accepted);
        double consumer = integral(acceptedAndThere, -REACH, limits.low(), error, accepted)
                + integral(acceptedAndThere, limits.high(), REACH, error, accepted);
        double producer = integral(rejectedAndThere, limits.low(), limits.high(), error, accepted);
        return new GlobalRisk(Conformance.probability(0, 1, Double.POSITIVE_INFINITY, limits), consumer, producer);
    }

    private static Interval scaled(Interval interval, NormalPrior prior) {
        return new Interval(
                (interval.low() - prior.mean()) / prior.standardDeviation(),
                (interval.high() - prior.mean()) / prior.standardDeviation());
    }

    private static double density(double z) {
        return Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
    }

    private static double inside(double z, double error, Interval accepted) {
        return Conformance.probability(z, error, Double.POSITIVE_INFINITY, accepted);
    }

    private static double outside(double z, double error, Interval accepted) {
        return Conformance.probabilityOutside(z, error, Double.POSITIVE_INFINITY, accepted);
    }

    /** Gauss-Legendre in panels, cut where the acceptance changes from no to yes within a few errors. */
    private static double integral(
            UnivariateFunction function, double from, double to, double error, Interval accepted) {
        double low = Math.max(from, -REACH);
        double high = Math.min(to, REACH);
        if (!(low < high)) {
            return 0;
        }
        double[] cuts = DoubleStream.of(
                        low,
                        accepted.low() - REACH * error,
                        accepted.low(),
                        accepted.low() + REACH * error,
                        accepted.high() - REACH * error,
                        accepted.high(),
                        accepted.high() + REACH * error,
                        high)
                .map(cut -> Math.max(low, Math.min(high, cut)))
                .sorted()
                .distinct()
                .toArray();
        double sum = 0;
        for (int i = 1; i < cuts.length; i++) {
            sum += part(function, cuts[i - 1], cuts[i]);
        }
        return sum;
    }

    private static double part(UnivariateFunction function, double from, double to) {
        double half = (to - from) / PANELS_PER_PART / 2;
        double sum = 0;
        for (int i = 0; i < PANELS_PER_PART; i++) {
            double middle = from + (2 * i + 1) * half;
            for (int j = 0; j < LEGENDRE.getNumberOfPoints(); j++) {
                sum += LEGENDRE.getWeight(j) * function.value(middle + half * LEGENDRE.getPoint(j));
            }
        }
        return sum * half;
    }
}
