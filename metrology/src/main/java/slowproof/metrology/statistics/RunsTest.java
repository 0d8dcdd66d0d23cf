package slowproof.metrology.statistics;

import java.util.Arrays;
import org.hipparchus.util.CombinatoricsUtils;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;

/**
 * Runs above and below the median of readings in time order: few runs speak for drift, many for swinging (A. Wald, J.
 * Wolfowitz; NIST/SEMATECH e-Handbook 1.3.5.13, from memory). Readings on the median are left out.
 *
 * @param runs number of unbroken stretches on one side
 * @param above readings above the median
 * @param below readings below the median
 */
public record RunsTest(int runs, int above, int below) {

    /**
     * Counts the runs.
     *
     * @param values in time order, finite, not all equal; not modified
     * @return the counts
     * @throws IllegalArgumentException if a value is not finite or all are equal
     */
    public static RunsTest of(double[] values) {
        Check.allFinite(values, "values");
        double median = median(values);
        int runs = 0;
        int above = 0;
        int below = 0;
        int side = 0;
        for (double value : values) {
            int here = Double.compare(value, median);
            if (value == median) {
                continue;
            }
            if (here > 0) {
                above++;
            } else {
                below++;
            }
            if (here != side) {
                runs++;
                side = here;
            }
        }
        if (above == 0 || below == 0) {
            throw new IllegalArgumentException("no reading on one side of the median: nothing to count");
        }
        return new RunsTest(runs, above, below);
    }

    /**
     * Number of runs expected of readings in random order.
     *
     * @return at least 2
     */
    public double expectedRuns() {
        return 2.0 * above * below / (above + below) + 1;
    }

    /**
     * Exact probability of a number of runs at least as extreme in random order: twice the smaller tail.
     *
     * @return 0 to 1, dimensionless
     */
    public double pValue() {
        double atMost = 0;
        double atLeast = 0;
        for (int r = 2; r <= 2 * Math.min(above, below) + 1; r++) {
            double p = probability(r);
            atMost += r <= runs ? p : 0;
            atLeast += r >= runs ? p : 0;
        }
        return Math.min(1, 2 * Math.min(atMost, atLeast));
    }

    private double probability(int r) {
        int half = r / 2;
        double all = CombinatoricsUtils.binomialCoefficientLog(above + below, above);
        if (r % 2 == 0) {
            return 2 * FastMath.exp(choose(above - 1, half - 1) + choose(below - 1, half - 1) - all);
        }
        return FastMath.exp(choose(above - 1, half) + choose(below - 1, half - 1) - all)
                + FastMath.exp(choose(above - 1, half - 1) + choose(below - 1, half) - all);
    }

    private static double choose(int n, int k) {
        return k > n ? Double.NEGATIVE_INFINITY : CombinatoricsUtils.binomialCoefficientLog(n, k);
    }

    private static double median(double[] values) {
        if (values.length == 0) {
            throw new IllegalArgumentException("no reading on one side of the median: nothing to count");
        }
        double[] ordered = values.clone();
        Arrays.sort(ordered);
        int middle = ordered.length / 2;
        return ordered.length % 2 == 1 ? ordered[middle] : ordered[middle - 1] / 2 + ordered[middle] / 2;
    }
}
