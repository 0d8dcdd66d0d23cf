package slowproof.metrology.statistics;

import org.hipparchus.analysis.solvers.BrentSolver;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;

/**
 * The noncentral Student distribution: (Z + delta)/(s/sigma) with Z standard normal and s from nu degrees of freedom.
 * Computed by integrating the normal probability over the distribution of s, to about 1e-13 absolute.
 */
public final class NonCentralStudent {
    private static final double ACCURACY = 1e-14;

    private NonCentralStudent() {}

    /**
     * Probability of a value of at most t.
     *
     * @param t any finite number, dimensionless
     * @param nu degrees of freedom, at least 1, finite
     * @param delta shift of the numerator, finite, dimensionless
     * @return 0 to 1
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double cdf(double t, double nu, double delta) {
        Check.finite(t, "t");
        Check.finite(delta, "shift");
        double p = new ScaledChi(degrees(nu))
                .mean(
                        u -> Distributions.normalCdf(t * u - delta),
                        Double.POSITIVE_INFINITY,
                        1 / Math.abs(t),
                        delta / t);
        return Math.max(0, Math.min(1, p));
    }

    /**
     * Value that is not exceeded with probability p.
     *
     * @param p above 0 and below 1
     * @param nu degrees of freedom, at least 1, finite
     * @param delta shift of the numerator, finite, dimensionless
     * @return dimensionless
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double quantile(double p, double nu, double delta) {
        Check.openProbability(p, "probability");
        degrees(nu);
        double low = delta - 1;
        double high = delta + 1;
        while (cdf(low, nu, delta) > p) {
            low -= high - low;
        }
        while (cdf(high, nu, delta) < p) {
            high += high - low;
        }
        return new BrentSolver(ACCURACY, ACCURACY, ACCURACY).solve(500, t -> cdf(t, nu, delta) - p, low, high);
    }

    private static double degrees(double nu) {
        if (!(nu >= 1 && nu < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("degrees of freedom must be at least 1 and finite: " + nu);
        }
        return nu;
    }
}
