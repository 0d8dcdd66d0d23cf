package slowproof.metrology;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.ContinuousDistribution;
import org.apache.commons.statistics.distribution.FDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * Distribution functions and quantiles of the normal, Student, chi-squared and F distributions. All arguments
 * and results are dimensionless.
 *
 * <p>Degrees of freedom are real numbers above 0; {@link Double#POSITIVE_INFINITY} means the limiting
 * distribution. Probabilities run from 0 to 1, both included; the quantile at an end is the end of the
 * support. The functions are those of Commons Statistics; its quantiles, found by bisection to an absolute
 * tolerance, are polished on the smaller tail so that they hold to about 1e-12 relative.
 */
public final class Distributions {

    private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

    // Above this many degrees of freedom Student differs from the normal by less than one unit in the last place.
    private static final double PRACTICALLY_INFINITE = 1e17;

    private static final int MOST_STEPS = 100;

    private Distributions() {}

    /**
     * Returns the probability of a standard normal value of at most {@code z}.
     *
     * @param z any number, infinities included
     * @return 0 to 1
     * @throws IllegalArgumentException if {@code z} is NaN
     */
    public static double normalCdf(double z) {
        return NORMAL.cumulativeProbability(number(z));
    }

    /**
     * Returns the value that a standard normal variable does not exceed with probability {@code p}.
     *
     * @param p 0 to 1
     * @return negative infinity at 0, positive infinity at 1
     * @throws IllegalArgumentException if {@code p} is not from 0 to 1
     */
    public static double normalQuantile(double p) {
        return NORMAL.inverseCumulativeProbability(probability(p));
    }

    /**
     * Returns the probability of a Student variable of at most {@code t}.
     *
     * @param t any number, infinities included
     * @param nu degrees of freedom, above 0; infinity gives the normal distribution
     * @return 0 to 1
     * @throws IllegalArgumentException if {@code t} is NaN or {@code nu} is not above 0
     */
    public static double studentCdf(double t, double nu) {
        return student(Check.degreesOfFreedom(nu)).cumulativeProbability(number(t));
    }

    /**
     * Returns the value that a Student variable does not exceed with probability {@code p}.
     *
     * @param p 0 to 1
     * @param nu degrees of freedom, above 0; infinity gives the normal distribution
     * @return negative infinity at 0, positive infinity at 1, exactly 0 at one half
     * @throws IllegalArgumentException if {@code p} is not from 0 to 1 or {@code nu} is not above 0
     */
    public static double studentQuantile(double p, double nu) {
        probability(p);
        ContinuousDistribution student = student(Check.degreesOfFreedom(nu));
        if (p == 0.5) {
            return 0;
        }
        if (student == NORMAL) {
            return normalQuantile(p);
        }
        // symmetry: work on the upper tail only, with the smaller of p and 1 - p
        double tail = Math.min(p, 1 - p);
        double upper = tail == 0
                ? Double.POSITIVE_INFINITY
                : polished(
                        student::survivalProbability,
                        student::density,
                        -1,
                        tail,
                        -student.inverseCumulativeProbability(tail));
        return p < 0.5 ? -upper : upper;
    }

    /**
     * Returns the probability of a chi-squared variable of at most {@code x}.
     *
     * @param x any number; the result is 0 below 0
     * @param nu degrees of freedom, above 0 and finite
     * @return 0 to 1
     * @throws IllegalArgumentException if {@code x} is NaN or {@code nu} is not above 0 and finite
     */
    public static double chiSquaredCdf(double x, double nu) {
        return chiSquared(nu).cumulativeProbability(number(x));
    }

    /**
     * Returns the value that a chi-squared variable does not exceed with probability {@code p}.
     *
     * @param p 0 to 1
     * @param nu degrees of freedom, above 0 and finite
     * @return 0 at 0, positive infinity at 1
     * @throws IllegalArgumentException if {@code p} is not from 0 to 1 or {@code nu} is not above 0 and finite
     */
    public static double chiSquaredQuantile(double p, double nu) {
        return positiveQuantile(chiSquared(nu), probability(p));
    }

    /**
     * Returns the probability of a variance ratio of at most {@code x}.
     *
     * @param x any number; the result is 0 below 0
     * @param n1 degrees of freedom of the numerator, above 0; infinity allowed
     * @param n2 degrees of freedom of the denominator, above 0; infinity allowed
     * @return 0 to 1; with both degrees of freedom infinite the ratio is exactly 1
     * @throws IllegalArgumentException if {@code x} is NaN or degrees of freedom are not above 0
     */
    public static double fCdf(double x, double n1, double n2) {
        number(x);
        Check.degreesOfFreedom(n1);
        Check.degreesOfFreedom(n2);
        if (n1 == Double.POSITIVE_INFINITY && n2 == Double.POSITIVE_INFINITY) {
            return x < 1 ? 0 : 1;
        }
        if (n2 == Double.POSITIVE_INFINITY) {
            return chiSquaredCdf(x * n1, n1);
        }
        if (n1 == Double.POSITIVE_INFINITY) {
            return x <= 0 ? 0 : chiSquared(n2).survivalProbability(n2 / x);
        }
        return FDistribution.of(n1, n2).cumulativeProbability(x);
    }

    /**
     * Returns the value that a variance ratio does not exceed with probability {@code p}.
     *
     * @param p 0 to 1
     * @param n1 degrees of freedom of the numerator, above 0; infinity allowed
     * @param n2 degrees of freedom of the denominator, above 0; infinity allowed
     * @return 0 at 0, positive infinity at 1; 1 with both degrees of freedom infinite
     * @throws IllegalArgumentException if {@code p} is not from 0 to 1 or degrees of freedom are not above 0
     */
    public static double fQuantile(double p, double n1, double n2) {
        probability(p);
        Check.degreesOfFreedom(n1);
        Check.degreesOfFreedom(n2);
        if (n1 == Double.POSITIVE_INFINITY && n2 == Double.POSITIVE_INFINITY) {
            return 1;
        }
        if (n2 == Double.POSITIVE_INFINITY) {
            return chiSquaredQuantile(p, n1) / n1;
        }
        if (n1 == Double.POSITIVE_INFINITY) {
            return n2 / chiSquaredQuantile(1 - p, n2);
        }
        return positiveQuantile(FDistribution.of(n1, n2), p);
    }

    private static ContinuousDistribution student(double nu) {
        return nu >= PRACTICALLY_INFINITE ? NORMAL : TDistribution.of(nu);
    }

    private static ChiSquaredDistribution chiSquared(double nu) {
        return ChiSquaredDistribution.of(Check.positive(nu, "degrees of freedom"));
    }

    private static double positiveQuantile(ContinuousDistribution distribution, double p) {
        if (p == 0) {
            return 0;
        }
        if (p == 1) {
            return Double.POSITIVE_INFINITY;
        }
        double start = distribution.inverseCumulativeProbability(p);
        return p <= 0.5
                ? polished(distribution::cumulativeProbability, distribution::density, 1, p, start)
                : polished(distribution::survivalProbability, distribution::density, -1, 1 - p, start);
    }

    /**
     * Newton's iteration for a positive x with tail(x) = wanted, in the logarithms of both: straight lines in
     * the far tails of Student and F, and never a step below zero.
     */
    private static double polished(
            DoubleUnaryOperator tail, DoubleUnaryOperator density, int slopeSign, double wanted, double start) {
        double x = Math.max(start, Double.MIN_NORMAL);
        double lastStep = Double.POSITIVE_INFINITY;
        for (int i = 0; i < MOST_STEPS; i++) {
            double reached = tail.applyAsDouble(x);
            double slope = slopeSign * x * density.applyAsDouble(x) / reached;
            double step = Math.log(wanted / reached) / slope;
            // a quantile outside the range of doubles, or rounding noise that no longer shrinks
            if (!Double.isFinite(step) || (Math.abs(step) < 1e-8 && Math.abs(step) >= lastStep)) {
                break;
            }
            x *= Math.exp(Math.max(-2, Math.min(2, step)));
            lastStep = Math.abs(step);
            if (lastStep < 1e-15) {
                break;
            }
        }
        return x;
    }

    private static double number(double x) {
        if (Double.isNaN(x)) {
            throw new IllegalArgumentException("not a number");
        }
        return x;
    }

    private static double probability(double p) {
        if (!(p >= 0 && p <= 1)) {
            throw new IllegalArgumentException("probability must be from 0 to 1: " + p);
        }
        return p;
    }
}
