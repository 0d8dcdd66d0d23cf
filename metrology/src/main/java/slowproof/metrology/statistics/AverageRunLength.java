package slowproof.metrology.statistics;

import java.util.Arrays;
import org.hipparchus.analysis.solvers.BrentSolver;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealVector;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;

/**
 * Mean number of values until a control chart signals, for independent normal values of known scatter, from the integral
 * equation of the run length (E. Page, Biometrika 41 (1954) 100; S. Crowder, Technometrics 29 (1987) 401; both from
 * memory), solved on Gauss-Legendre points. Shifts, allowances and limits are in standard deviations of a value.
 */
public final class AverageRunLength {
    private static final int POINTS = 80;
    private static final double ACCURACY = 1e-10;

    // Longer ones drown in the rounding of the probability to stay inside.
    private static final double LONGEST = 1e12;

    // No wanted run length needs limits beyond these.
    private static final double LEAST_LIMIT = 0.01;
    private static final double MOST_LIMIT = 60;

    private AverageRunLength() {}

    /**
     * Run length of a two-sided CUSUM chart that starts at zero.
     *
     * @param shift of the mean from the target, finite
     * @param allowance k, at least 0
     * @param limit h, above 0
     * @return number of values, at least 1; infinite beyond 1e12
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double cusum(double shift, double allowance, double limit) {
        // the two one-sided charts cannot both be near their limits: rates add (from memory)
        double up = cusumOneSided(shift, allowance, limit);
        double down = cusumOneSided(-shift, allowance, limit);
        return 1 / (1 / up + 1 / down);
    }

    /**
     * Run length of a one-sided CUSUM chart that starts at zero and looks for upward shifts.
     *
     * @param shift of the mean from the target, finite
     * @param allowance k, at least 0
     * @param limit h, above 0
     * @return number of values, at least 1; infinite beyond 1e12
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double cusumOneSided(double shift, double allowance, double limit) {
        Check.finite(shift, "shift");
        Check.notNegative(allowance, "allowance");
        Check.positive(limit, "limit");
        double drift = shift - allowance;
        Rule rule = Rule.eighty(0, limit);
        // unknowns: run length from each point, and, last, from zero, where the sum stays with a probability of its own
        double[][] system = new double[POINTS + 1][POINTS + 1];
        for (int i = 0; i <= POINTS; i++) {
            double from = i < POINTS ? rule.point(i) : 0;
            for (int j = 0; j < POINTS; j++) {
                system[i][j] = -rule.weight(j) * density(rule.point(j) - from - drift);
            }
            system[i][POINTS] = -Distributions.normalCdf(-from - drift);
            system[i][i] += 1;
        }
        double length = solution(system).getEntry(POINTS);
        return length > 0 && length < LONGEST ? length : Double.POSITIVE_INFINITY;
    }

    /**
     * Run length of a two-sided chart of the exponentially weighted moving average with limits of constant width, started
     * at the target.
     *
     * @param shift of the mean from the target, finite
     * @param weight of the newest value, above 0 and at most 1, dimensionless
     * @param factor width of the limits in final standard deviations of the average, above 0
     * @return number of values, at least 1
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double ewma(double shift, double weight, double factor) {
        Check.finite(shift, "shift");
        Ewma.checkWeight(weight);
        Check.positive(factor, "factor");
        double limit = factor * Math.sqrt(weight / (2 - weight));
        if (weight == 1) {
            // no memory: a geometric distribution
            return 1 / (Distributions.normalCdf(-limit - shift) + Distributions.normalCdf(-limit + shift));
        }
        Rule rule = Rule.eighty(-limit, limit);
        double[][] system = new double[POINTS][POINTS];
        for (int i = 0; i < POINTS; i++) {
            double kept = (1 - weight) * rule.point(i);
            for (int j = 0; j < POINTS; j++) {
                system[i][j] = -rule.weight(j) / weight * density((rule.point(j) - kept) / weight - shift);
            }
            system[i][i] += 1;
        }
        RealVector lengths = solution(system);
        double sum = 1;
        for (int j = 0; j < POINTS; j++) {
            sum += rule.weight(j) / weight * density(rule.point(j) / weight - shift) * lengths.getEntry(j);
        }
        return sum;
    }

    /**
     * Limit h of a two-sided CUSUM chart that cries wolf once in so many values on average.
     *
     * @param runLength wanted run length without a shift, 10 to 1e6
     * @param allowance k, 0.1 to 2
     * @return h, in standard deviations of a value
     * @throws IllegalArgumentException if an argument is out of its range, or the allowance alone makes runs longer
     */
    public static double cusumLimit(double runLength, double allowance) {
        checkWanted(runLength);
        if (!(allowance >= 0.1 && allowance <= 2)) {
            throw new IllegalArgumentException("allowance must be 0.1 to 2: " + allowance);
        }
        double wanted = FastMath.log(runLength);
        if (cusum(0, allowance, LEAST_LIMIT) >= runLength) {
            throw new IllegalArgumentException(
                    "with an allowance of " + allowance + " every run is longer than " + runLength + " on average");
        }
        return new BrentSolver(ACCURACY, ACCURACY)
                .solve(
                        200,
                        h -> FastMath.log(Math.min(LONGEST, cusum(0, allowance, h))) - wanted,
                        LEAST_LIMIT,
                        MOST_LIMIT);
    }

    /**
     * Factor L of a two-sided chart of the exponentially weighted moving average that cries wolf once in so many values on
     * average.
     *
     * @param runLength wanted run length without a shift, 10 to 1e6
     * @param weight of the newest value, 0.01 to 1, dimensionless
     * @return L, in final standard deviations of the average
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double ewmaFactor(double runLength, double weight) {
        checkWanted(runLength);
        if (!(weight >= 0.01 && weight <= 1)) {
            throw new IllegalArgumentException("weight must be 0.01 to 1: " + weight);
        }
        double wanted = FastMath.log(runLength);
        return new BrentSolver(ACCURACY, ACCURACY)
                .solve(200, factor -> FastMath.log(ewma(0, weight, factor)) - wanted, 0.1, 6);
    }

    private static RealVector solution(double[][] system) {
        double[] ones = new double[system.length];
        Arrays.fill(ones, 1);
        return new LUDecomposition(new Array2DRowRealMatrix(system, false), 0)
                .getSolver()
                .solve(new ArrayRealVector(ones, false));
    }

    private static double density(double z) {
        return FastMath.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
    }

    private static void checkWanted(double runLength) {
        if (!(runLength >= 10 && runLength <= 1e6)) {
            throw new IllegalArgumentException("run length must be 10 to 1000000: " + runLength);
        }
    }
}
