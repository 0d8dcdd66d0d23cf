package slowproof.metrology.statistics;

import org.hipparchus.analysis.solvers.BrentSolver;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/**
 * Factors k of normal statistical tolerance intervals, mean +- k s (two-sided) or mean + k s (one-sided): with the
 * stated confidence the interval holds at least the stated content of the population. Mean and standard deviation are
 * both estimated from n readings (ISO 16269-6:2014, unknown mean and standard deviation, clause from memory). All
 * factors are dimensionless.
 */
public final class ToleranceFactor {
    private static final double FAR = 9;
    private static final int PIECES = 18;
    private static final double ACCURACY = 1e-13;

    private ToleranceFactor() {}

    /**
     * Exact one-sided factor, from the noncentral Student distribution.
     *
     * @param content share of the population, above 0 and below 1
     * @param confidence above 0 and below 1
     * @param n number of readings, at least 2
     * @return k; negative when content and confidence are small
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double oneSided(double content, double confidence, int n) {
        check(content, confidence, n);
        double root = Math.sqrt(n);
        return NonCentralStudent.quantile(confidence, n - 1.0, Distributions.normalQuantile(content) * root) / root;
    }

    /**
     * Approximate one-sided factor in closed form (M. Natrella, Experimental Statistics (1963), as in the NIST/SEMATECH
     * e-Handbook 7.2.6.3, from memory).
     *
     * @param content share of the population, above 0 and below 1
     * @param confidence above 0 and below 1
     * @param n number of readings, at least 2
     * @return k
     * @throws IllegalArgumentException if an argument is out of its range, or n is too small for the approximation
     */
    public static double oneSidedApproximate(double content, double confidence, int n) {
        check(content, confidence, n);
        double zp = Distributions.normalQuantile(content);
        double zc = Distributions.normalQuantile(confidence);
        double a = 1 - zc * zc / (2.0 * (n - 1));
        double b = zp * zp - zc * zc / n;
        if (!(a > 0 && zp * zp - a * b >= 0)) {
            throw new IllegalArgumentException("too few readings for the approximation: " + n);
        }
        return (zp + Math.sqrt(zp * zp - a * b)) / a;
    }

    /**
     * Exact two-sided factor: the confidence averaged over the position of the sample mean.
     *
     * @param content share of the population, above 0 and below 1
     * @param confidence above 0 and below 1
     * @param n number of readings, at least 2
     * @return k, above 0
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double twoSided(double content, double confidence, int n) {
        check(content, confidence, n);
        double nu = n - 1.0;
        // Half widths, in true standard deviations, that hold the content when the mean is off by z/sqrt(n).
        double[] halfWidths = new double[PIECES * 16];
        double[] weights = new double[PIECES * 16];
        int size = 0;
        for (int piece = 0; piece < PIECES; piece++) {
            Rule rule = Rule.sixteen(FAR * piece / PIECES, FAR * (piece + 1) / PIECES);
            for (int k = 0; k < rule.size(); k++) {
                double z = rule.point(k);
                halfWidths[size] = halfWidth(z / Math.sqrt(n), content);
                weights[size] = 2 * rule.weight(k) * FastMath.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
                size++;
            }
        }
        double guess = howe(content, confidence, n);
        return new BrentSolver(ACCURACY, ACCURACY, ACCURACY)
                .solve(500, k -> averageConfidence(k, nu, halfWidths, weights) - confidence, guess / 3, guess * 3);
    }

    /**
     * Approximate two-sided factor in closed form (W. Howe, J. Am. Stat. Assoc. 64 (1969) 610, from memory; NIST/SEMATECH
     * e-Handbook 7.2.6.3).
     *
     * @param content share of the population, above 0 and below 1
     * @param confidence above 0 and below 1
     * @param n number of readings, at least 2
     * @return k, above 0
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double howe(double content, double confidence, int n) {
        check(content, confidence, n);
        double nu = n - 1.0;
        double z = Distributions.normalQuantile((1 + content) / 2);
        return z * Math.sqrt(nu * (1 + 1.0 / n) / Distributions.chiSquaredQuantile(1 - confidence, nu));
    }

    /**
     * Two-sided tolerance interval of readings, by the exact factor.
     *
     * @param values at least two, finite, any unit; not modified
     * @param content share of the population, above 0 and below 1
     * @param confidence above 0 and below 1
     * @return mean - k s to mean + k s, in the unit of the values
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static Interval interval(double[] values, double content, double confidence) {
        double half = twoSided(content, confidence, values.length) * Statistics.standardDeviation(values);
        double mean = Statistics.mean(values);
        return new Interval(mean - half, mean + half);
    }

    private static double averageConfidence(double k, double nu, double[] halfWidths, double[] weights) {
        double sum = 0;
        for (int i = 0; i < weights.length; i++) {
            double ratio = halfWidths[i] / k;
            sum += weights[i] * (1 - Distributions.chiSquaredCdf(nu * ratio * ratio, nu));
        }
        return sum;
    }

    // r with Phi(offset + r) - Phi(offset - r) = content, by Newton's method from the centred case
    private static double halfWidth(double offset, double content) {
        double r = Math.max(Distributions.normalQuantile((1 + content) / 2), offset);
        for (int step = 0; step < 100; step++) {
            double reached = Distributions.normalCdf(offset + r) - Distributions.normalCdf(offset - r);
            double slope = density(offset + r) + density(offset - r);
            double change = (content - reached) / slope;
            r += change;
            if (Math.abs(change) <= ACCURACY * r) {
                break;
            }
        }
        return r;
    }

    private static double density(double z) {
        return FastMath.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
    }

    private static void check(double content, double confidence, int n) {
        Check.openProbability(content, "content");
        Check.openProbability(confidence, "confidence");
        if (n < 2) {
            throw new IllegalArgumentException("a tolerance interval needs at least two readings: " + n);
        }
    }
}
