package slowproof.metrology.statistics;

import java.util.OptionalInt;
import java.util.function.IntPredicate;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;

/**
 * How many readings a statement needs, and how likely it succeeds. Standard deviations, limits and errors are in one
 * unit; counts and probabilities are dimensionless. Readings are independent and normal.
 */
public final class Power {
    private static final int MOST_READINGS = 1_000_000;

    private Power() {}

    /**
     * Smallest number of readings for which the confidence interval of the mean, t s/sqrt(n), is expected to be no wider
     * than wanted, s being as expected.
     *
     * @param standardDeviation expected scatter of a reading, above 0
     * @param halfWidth wanted half width, above 0
     * @param level two-sided confidence level, above 0 and below 1
     * @return n, at least 2
     * @throws IllegalArgumentException if an argument is out of its range or more than a million readings are needed
     */
    public static int readingsForMean(double standardDeviation, double halfWidth, double level) {
        Check.positive(standardDeviation, "standard deviation");
        Check.positive(halfWidth, "half width");
        double p = (1 + Check.openProbability(level, "confidence")) / 2;
        return smallest(
                        2,
                        n -> Distributions.studentQuantile(p, n - 1.0) * standardDeviation / Math.sqrt(n) <= halfWidth)
                .orElseThrow(Power::tooMany);
    }

    /**
     * Smallest degrees of freedom with which a standard deviation lies within a factor of the true one, up or down.
     *
     * @param factor largest ratio, above 1; for a variance give its square root
     * @param probability above 0 and below 1
     * @return degrees of freedom, at least 1
     * @throws IllegalArgumentException if an argument is out of its range or more than a million are needed
     */
    public static int degreesOfFreedomForDeviation(double factor, double probability) {
        if (!(factor > 1 && factor < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("factor must be above 1 and finite: " + factor);
        }
        Check.openProbability(probability, "probability");
        return smallest(1, nu -> ScaledChi.within(factor, nu) >= probability).orElseThrow(Power::tooMany);
    }

    /**
     * Probability that a two-sided t test finds a mean different from zero.
     *
     * @param mean true mean
     * @param standardDeviation true scatter of a reading, above 0
     * @param n number of readings, at least 2
     * @param alpha level of the test, above 0 and below 1
     * @return 0 to 1
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double ofDifference(double mean, double standardDeviation, int n, double alpha) {
        Check.finite(mean, "mean");
        Check.positive(standardDeviation, "standard deviation");
        Check.openProbability(alpha, "level of the test");
        double nu = degreesOfFreedom(n);
        double t = Distributions.studentQuantile(1 - alpha / 2, nu);
        double delta = Math.abs(mean) / standardDeviation * Math.sqrt(n);
        return NonCentralStudent.cdf(-t, nu, delta) + 1 - NonCentralStudent.cdf(t, nu, delta);
    }

    /**
     * Probability that readings prove the mean to lie inside a two-sided limit: both one-sided t tests, against -limit
     * and against +limit, succeed (two one-sided tests; D. Schuirmann, J. Pharmacokinet. Biopharm. 15 (1987) 657, from
     * memory). Exact: integrated over the distribution of s.
     *
     * @param limit above 0
     * @param mean true mean, inside or outside the limit
     * @param standardDeviation true scatter of a reading, above 0
     * @param n number of readings, at least 2
     * @param alpha level of each one-sided test, above 0 and below 0.5
     * @return 0 to 1; at a mean exactly on the limit at most alpha
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double ofConformity(double limit, double mean, double standardDeviation, int n, double alpha) {
        Check.positive(limit, "limit");
        Check.finite(mean, "mean");
        Check.positive(standardDeviation, "standard deviation");
        if (!(alpha > 0 && alpha < 0.5)) {
            throw new IllegalArgumentException("level of the test must lie between 0 and 0.5: " + alpha);
        }
        double nu = degreesOfFreedom(n);
        double t = Distributions.studentQuantile(1 - alpha, nu);
        double unit = standardDeviation / Math.sqrt(n);
        double above = (limit - mean) / unit;
        double below = (-limit - mean) / unit;
        // beyond this s no mean can prove anything: t s/sqrt(n) is as large as the limit
        double largest = limit / (t * unit);
        double power = new ScaledChi(nu)
                .mean(
                        u -> Distributions.normalCdf(above - t * u) - Distributions.normalCdf(below + t * u),
                        largest,
                        1 / t,
                        above / t,
                        -below / t);
        return Math.max(0, Math.min(1, power));
    }

    /**
     * Smallest number of readings that prove with the wanted probability that the mean lies inside a two-sided limit.
     *
     * @param limit above 0
     * @param mean true mean, inside the limit
     * @param standardDeviation true scatter of a reading, above 0
     * @param alpha level of each one-sided test, above 0 and below 0.5
     * @param power wanted probability, above 0 and below 1
     * @return n, at least 2, or empty when more than a million readings would be needed
     * @throws IllegalArgumentException if an argument is out of its range or the mean is not inside the limit
     */
    public static OptionalInt readingsForConformity(
            double limit, double mean, double standardDeviation, double alpha, double power) {
        Check.openProbability(power, "power");
        if (!(FastMath.abs(mean) < limit)) {
            throw new IllegalArgumentException("a mean of " + mean + " cannot be proved to lie inside " + limit);
        }
        return smallest(2, n -> ofConformity(limit, mean, standardDeviation, n, alpha) >= power);
    }

    // Smallest whole number from the first on for which a statement holds that stays true once it is.
    private static OptionalInt smallest(int first, IntPredicate holds) {
        int high = first;
        while (!holds.test(high)) {
            if (high >= MOST_READINGS) {
                return OptionalInt.empty();
            }
            high = Math.min(MOST_READINGS, 2 * high);
        }
        int low = first - 1;
        while (high - low > 1) {
            int middle = low + (high - low) / 2;
            if (middle >= first && holds.test(middle)) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return OptionalInt.of(high);
    }

    private static double degreesOfFreedom(int n) {
        if (n < 2) {
            throw new IllegalArgumentException("a test of a mean needs at least two readings: " + n);
        }
        return n - 1.0;
    }

    private static IllegalArgumentException tooMany() {
        return new IllegalArgumentException("more than " + MOST_READINGS + " readings would be needed");
    }
}
