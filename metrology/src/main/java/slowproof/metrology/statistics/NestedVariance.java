package slowproof.metrology.statistics;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.optim.InitialGuess;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.nonlinear.scalar.ObjectiveFunction;
import org.hipparchus.optim.nonlinear.scalar.noderiv.NelderMeadSimplex;
import org.hipparchus.optim.nonlinear.scalar.noderiv.SimplexOptimizer;
import org.hipparchus.optim.univariate.BrentOptimizer;
import org.hipparchus.optim.univariate.SearchInterval;
import org.hipparchus.optim.univariate.UnivariateObjectiveFunction;
import org.hipparchus.optim.univariate.UnivariatePointValuePair;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;

/**
 * Nested analysis of variance: readings within series within days within sensors, any depth, any numbers. Variance
 * components by the method of moments and by restricted maximum likelihood (REML); ISO 5725-3:2023 treats the same
 * layouts (clause from memory). Variances have the squared unit of the readings.
 *
 * <p>Level 0 is the outermost grouping; the last component is the scatter of readings within the innermost groups.
 */
public final class NestedVariance {
    private static final double ACCURACY = 1e-12;
    private static final int MOST_EVALUATIONS = 100_000;
    private static final int RESTARTS = 3;

    private final Nest root;
    private final int levels;
    private final double origin;
    private final double[] sums;
    private final int[] degreesOfFreedom;
    private final double[] raw;

    private NestedVariance(Nest root, int levels, double origin) {
        this.root = root;
        this.levels = levels;
        this.origin = origin;
        sums = new double[levels + 1];
        degreesOfFreedom = new int[levels + 1];
        for (int k = 0; k <= levels; k++) {
            List<Nest> above = root.at(k);
            sums[k] = above.stream().mapToDouble(Nest::sumAboutMean).sum();
            int below = k == levels ? root.count() : root.at(k + 1).size();
            degreesOfFreedom[k] = below - above.size();
            if (degreesOfFreedom[k] == 0) {
                throw new IllegalArgumentException(
                        "level " + k + " has no group with two parts: its scatter cannot be told from the next");
            }
        }
        raw = moments();
    }

    /**
     * Analyses readings with their labels.
     *
     * @param labels for each reading one label per level, outermost first, at least one level; labels of an inner level
     *     need only be different within their outer group; not modified
     * @param values readings, one per row of labels, finite; not modified
     * @return the analysis
     * @throws IllegalArgumentException if lengths differ, a value is not finite, or some level never has two parts
     */
    public static NestedVariance of(int[][] labels, double[] values) {
        Check.allFinite(values, "values");
        if (labels.length != values.length || values.length == 0 || labels[0].length == 0) {
            throw new IllegalArgumentException(
                    "every reading needs labels: " + labels.length + " rows for " + values.length + " readings");
        }
        for (int[] row : labels) {
            if (row.length != labels[0].length) {
                throw new IllegalArgumentException("every reading needs " + labels[0].length + " labels");
            }
        }
        return new NestedVariance(Nest.of(labels, values, values[0]), labels[0].length, values[0]);
    }

    /**
     * Number of groupings; there is one component more.
     *
     * @return at least 1
     */
    public int levels() {
        return levels;
    }

    /**
     * Mean of all readings.
     *
     * @return in their unit
     */
    public double mean() {
        return origin + root.mean();
    }

    /**
     * Sum of squares of a level: of its group means about the means they lie in, weighted by readings.
     *
     * @param level 0 for the outermost groups, {@link #levels} for the readings
     * @return at least 0
     */
    public double sumOfSquares(int level) {
        return sums[level];
    }

    /**
     * Degrees of freedom of a level.
     *
     * @param level 0 for the outermost groups, {@link #levels} for the readings
     * @return at least 1, dimensionless
     */
    public int degreesOfFreedom(int level) {
        return degreesOfFreedom[level];
    }

    /**
     * Mean square of a level.
     *
     * @param level 0 for the outermost groups, {@link #levels} for the readings
     * @return at least 0
     */
    public double meanSquare(int level) {
        return sums[level] / degreesOfFreedom[level];
    }

    /**
     * Variance component of a level by the method of moments: observed mean squares set equal to their expectations.
     *
     * @param level 0 for the outermost groups, {@link #levels} for the readings
     * @return may be negative when the true component is small
     */
    public double moment(int level) {
        return raw[level];
    }

    /**
     * Variance components by restricted maximum likelihood. For balanced readings without negative moments the same as
     * the moments.
     *
     * @return one component per level, outermost first, then that of the readings; each at least 0
     * @throws IllegalStateException if no reading differs from another in its innermost group
     */
    public double[] reml() {
        if (sums[levels] == 0) {
            throw new IllegalStateException("no scatter within the innermost groups: components have no scale");
        }
        double[] start = new double[levels];
        for (int k = 0; k < levels; k++) {
            start[k] = Math.sqrt(Math.max(0.01, raw[k] / raw[levels]));
        }
        // as squares, so that no component becomes negative
        double[] roots = levels == 1 ? best(start[0]) : best(start);
        double[] ratios = Arrays.stream(roots).map(r -> r * r).toArray();
        double scale = root.summary(ratios, 0).squares() / (root.count() - 1);
        double[] result = Arrays.copyOf(ratios, levels + 1);
        result[levels] = 1;
        for (int k = 0; k <= levels; k++) {
            result[k] *= scale;
        }
        return result;
    }

    // twice the negative restricted log-likelihood, the variance of a reading profiled out
    private double deviance(double[] roots) {
        double[] ratios = Arrays.stream(roots).map(r -> r * r).toArray();
        Nest.Summary summary = root.summary(ratios, 0);
        return (root.count() - 1) * FastMath.log(summary.squares()) + summary.logDeterminant();
    }

    private double[] best(double start) {
        double high = 4 * start;
        while (deviance(new double[] {2 * high}) < deviance(new double[] {high})) {
            high *= 2;
        }
        UnivariatePointValuePair found = new BrentOptimizer(ACCURACY, ACCURACY)
                .optimize(
                        new MaxEval(1000),
                        GoalType.MINIMIZE,
                        new UnivariateObjectiveFunction(r -> deviance(new double[] {r})),
                        new SearchInterval(0, 2 * high, start));
        double none = deviance(new double[] {0});
        return new double[] {found.getValue() < none ? found.getPoint() : 0};
    }

    private double[] best(double[] start) {
        double[] point = start;
        for (int run = 0; run < RESTARTS; run++) {
            double step = run == 0 ? 0.5 : 0.1;
            point = new SimplexOptimizer(ACCURACY, ACCURACY)
                    .optimize(
                            new MaxEval(MOST_EVALUATIONS),
                            GoalType.MINIMIZE,
                            new ObjectiveFunction(this::deviance),
                            new InitialGuess(point),
                            new NelderMeadSimplex(levels, step))
                    .getPoint();
        }
        // a component that may as well be zero is zero
        for (int k = 0; k < levels; k++) {
            double[] without = point.clone();
            without[k] = 0;
            if (deviance(without) <= deviance(point)) {
                point = without;
            }
        }
        return point;
    }

    private double[] moments() {
        double[] result = new double[levels + 1];
        result[levels] = meanSquare(levels);
        for (int k = levels - 1; k >= 0; k--) {
            double rest = meanSquare(k) - result[levels];
            for (int j = k + 1; j < levels; j++) {
                rest -= coefficient(k, j) * result[j];
            }
            result[k] = rest / coefficient(k, k);
        }
        return result;
    }

    // how often the component of level j counts in the expected mean square of level k
    private double coefficient(int k, int j) {
        double sum = 0;
        for (Nest group : root.at(k + 1)) {
            sum += sharedSquares(group, j - k);
        }
        for (Nest group : root.at(k)) {
            sum -= sharedSquares(group, j - k + 1);
        }
        return sum / degreesOfFreedom[k];
    }

    private static double sharedSquares(Nest group, int depth) {
        double sum = 0;
        for (Nest part : group.at(depth)) {
            sum += (double) part.count() * part.count();
        }
        return sum / group.count();
    }
}
