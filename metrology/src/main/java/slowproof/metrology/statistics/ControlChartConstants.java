package slowproof.metrology.statistics;

import org.hipparchus.special.Gamma;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Distributions;

/**
 * Constants of control charts for subgroups of n normal readings, dimensionless (ISO 7870-2, from memory): c4 = E(s)/sigma,
 * d2 = E(range)/sigma, d3 = standard deviation of range/sigma.
 */
public final class ControlChartConstants {
    private static final double FAR = 9;

    private ControlChartConstants() {}

    /**
     * Expected sample standard deviation over the true one.
     *
     * @param n subgroup size, at least 2
     * @return above 0 and below 1
     * @throws IllegalArgumentException if n is below 2
     */
    public static double c4(int n) {
        check(n);
        return Math.sqrt(2.0 / (n - 1)) * FastMath.exp(Gamma.logGamma(n / 2.0) - Gamma.logGamma((n - 1) / 2.0));
    }

    /**
     * Expected range over the true standard deviation (L. Tippett, Biometrika 17 (1925) 364, from memory).
     *
     * @param n subgroup size, at least 2
     * @return above 0
     * @throws IllegalArgumentException if n is below 2
     */
    public static double d2(int n) {
        check(n);
        return PiecewiseIntegral.over(
                x -> 1 - FastMath.pow(Distributions.normalCdf(x), n) - FastMath.pow(Distributions.normalCdf(-x), n),
                -FAR,
                FAR,
                36);
    }

    /**
     * Standard deviation of the range over the true standard deviation.
     *
     * @param n subgroup size, at least 2
     * @return above 0
     * @throws IllegalArgumentException if n is below 2
     */
    public static double d3(int n) {
        check(n);
        // E(R^2) = 2 * integral over x < y of 1 - F(y)^n - (1 - F(x))^n + (F(y) - F(x))^n
        double square = 2
                * PiecewiseIntegral.over(
                        y -> PiecewiseIntegral.over(
                                x -> outside(x, y, n), PiecewiseIntegral.evenly(-FAR, y, 1 + (int) (y + FAR))),
                        -FAR,
                        FAR,
                        18);
        double mean = d2(n);
        return Math.sqrt(square - mean * mean);
    }

    private static double outside(double x, double y, int n) {
        return 1
                - FastMath.pow(Distributions.normalCdf(y), n)
                - FastMath.pow(Distributions.normalCdf(-x), n)
                + FastMath.pow(Distributions.normalCdf(y) - Distributions.normalCdf(x), n);
    }

    private static void check(int n) {
        if (n < 2) {
            throw new IllegalArgumentException("a subgroup needs at least two readings: " + n);
        }
    }
}
