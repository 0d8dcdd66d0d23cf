package slowproof.trial.forecast;

import slowproof.metrology.Distributions;

/**
 * Tails of a normal variable plus a triangular one: the scatter of a piece and the rounding of its two readings, each
 * uniform over one step. In closed form, so that shares of 1e-6 and less are as sure as large ones.
 *
 * <p>With Q the upper tail of the standard normal and B its second integral, B(x) = s^2 ((1 + z^2) Q(z) - z phi(z)) / 2,
 * z = x / s, the upper tail of the sum is (B(x - q) - 2 B(x) + B(x + q)) / q^2.
 */
final class Tails {
    // below this ratio the difference of second order loses digits and the triangle is as good as normal
    private static final double NARROW = 0.01;

    private Tails() {}

    /**
     * Returns the probability that the sum exceeds {@code x}.
     *
     * @param x distance from the mean
     * @param s standard deviation of the normal part, at least 0
     * @param q half width of the triangular part (one step), at least 0
     */
    static double above(double x, double s, double q) {
        if (q <= NARROW * s) {
            double all = Math.sqrt(s * s + q * q / 6);
            return all == 0 ? (x < 0 ? 1 : 0) : Distributions.normalCdf(-x / all);
        }
        if (x < 0) {
            return 1 - above(-x, s, q);
        }
        if (s <= NARROW * NARROW * q) {
            return x >= q ? 0 : 0.5 * (1 - x / q) * (1 - x / q);
        }
        double value = (second(x - q, s) - 2 * second(x, s) + second(x + q, s)) / (q * q);
        return Math.max(0, Math.min(1, value));
    }

    /**
     * Returns the density of the sum at a distance from its mean, per unit of {@code x}: minus the slope of {@link
     * #above}, with A, the first integral of Q, in the place of B. Sure to about 1e-9 of its largest value.
     *
     * @param x distance from the mean
     * @param s standard deviation of the normal part, at least 0
     * @param q half width of the triangular part (one step), at least 0; one of both above 0
     */
    static double density(double x, double s, double q) {
        if (q <= NARROW * s) {
            double all = Math.sqrt(s * s + q * q / 6);
            double z = x / all;
            return Math.exp(-0.5 * z * z) / (all * Math.sqrt(2 * Math.PI));
        }
        if (s <= NARROW * NARROW * q) {
            return Math.max(0, 1 - Math.abs(x) / q) / q;
        }
        double far = Math.abs(x);
        return Math.max(0, (first(far - q, s) - 2 * first(far, s) + first(far + q, s)) / (q * q));
    }

    private static double first(double x, double s) {
        double z = x / s;
        return s * (Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI) - z * Distributions.normalCdf(-z));
    }

    private static double second(double x, double s) {
        double z = x / s;
        double density = Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
        if (z > 6) {
            // the closed form cancels: Mills' ratio expanded, B = s^2 phi (1/z^3 - 6/z^5 + 45/z^7 - 420/z^9 +
            // 4725/z^11)
            double w = 1 / (z * z);
            return s * s * density / (z * z * z) * (1 - w * (6 - w * (45 - w * (420 - w * 4725))));
        }
        return 0.5 * s * s * ((1 + z * z) * Distributions.normalCdf(-z) - z * density);
    }
}
