package slowproof.metrology.statistics;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.hipparchus.special.Gamma;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Distributions;

/** The ratio u = s / sigma of a sample standard deviation with nu degrees of freedom to the true one. */
final class ScaledChi {
    // What lies beyond these tails adds nothing to a double.
    private static final double TAIL = 1e-18;

    // Twice the probability of a normal value beyond this is 2e-19.
    private static final double FAR = 9;

    private static final int PIECES = 24;

    private final double nu;
    private final double logConstant;
    private final double low;
    private final double high;

    ScaledChi(double nu) {
        this.nu = nu;
        logConstant = FastMath.log(2) + nu / 2 * FastMath.log(nu / 2) - Gamma.logGamma(nu / 2);
        ChiSquaredDistribution square = ChiSquaredDistribution.of(nu);
        low = Math.sqrt(square.inverseCumulativeProbability(TAIL) / nu);
        high = Math.sqrt(square.inverseSurvivalProbability(TAIL) / nu);
    }

    double density(double u) {
        return u > 0
                ? FastMath.exp(logConstant + (nu - 1) * FastMath.log(u) - nu * u * u / 2)
                : nu == 1 ? FastMath.exp(logConstant) : 0;
    }

    /**
     * Mean of f(u) over u up to a limit, nothing beyond it.
     *
     * @param f may change within a width about some places, else smooth
     */
    double mean(DoubleUnaryOperator f, double limit, double width, double... places) {
        double end = Math.min(limit, high);
        if (!(end > low)) {
            return 0;
        }
        double[] points = PiecewiseIntegral.evenly(low, end, PIECES);
        for (double place : places) {
            if (Double.isFinite(place) && width < high - low) {
                double[] quick = PiecewiseIntegral.evenly(place - FAR * width, place + FAR * width, PIECES);
                points = PiecewiseIntegral.merged(low, end, points, quick);
            }
        }
        return PiecewiseIntegral.over(u -> f.applyAsDouble(u) * density(u), points);
    }

    /** Probability that s lies within a factor of sigma, up or down. */
    static double within(double factor, double nu) {
        return Distributions.chiSquaredCdf(nu * factor * factor, nu)
                - Distributions.chiSquaredCdf(nu / (factor * factor), nu);
    }
}
