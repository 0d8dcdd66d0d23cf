package slowproof.trial.scatter;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Distributions;
import slowproof.trial.scatter.ConditionLikelihood.Score;
import slowproof.trial.scatter.VarianceComponents.Method;
import slowproof.trial.scatter.VarianceComponents.SplitReason;

/**
 * Variance components by restricted maximum likelihood (Patterson and Thompson, Biometrika 58 (1971) 545, from
 * memory; between-series part as in GUM H.5). Fixed effects are the means of condition and direction. Per pass
 * the covariance is start^2 starts + travel^2 L/1 m on the diagonal, series^2 within a series, and the known
 * readings: 2 s^2 on the diagonal and -d d' s^2 between passes that share one, d the directions.
 *
 * <p>Fisher scoring with the components kept at 0 or above; a step is halved until the likelihood grows. The 95 %
 * intervals treat an estimate as chi-squared with 2 estimate^2 / variance degrees of freedom (Satterthwaite);
 * an estimate that may be 0 has the upper bound at which the restricted likelihood has dropped by 1.92.
 */
public final class ComponentFit {
    /** Ratio of longest to shortest stroke from which start and travel can be told apart. */
    public static final double STROKE_RATIO = 3;

    private static final int START = 0;
    private static final int TRAVEL = 1;
    private static final int SERIES = 2;
    private static final int ITERATIONS = 100;
    // half of the 95 % point of chi-squared with one degree of freedom
    private static final double LIKELIHOOD_DROP = 1.920729;

    // an estimate with fewer degrees of freedom (less than about two standard deviations from 0) may be 0
    private static final double LEAST_FREEDOM = 8;

    private final List<ConditionLikelihood> conditions = new ArrayList<>();
    private final boolean[] active;

    private ComponentFit(List<ConditionBlock> blocks, double readingVarianceMm2, boolean[] active) {
        this.active = active;
        for (ConditionBlock block : blocks) {
            ConditionLikelihood condition = ConditionLikelihood.of(block, readingVarianceMm2);
            if (condition != null) {
                conditions.add(condition);
            }
        }
    }

    /**
     * Returns the components of the passes of one material.
     *
     * @param passes the passes
     * @param readingVarianceMm2 variance of one reading in mm²: resolution^2 / 12 and the reference's own
     *     repeatability; at least 0
     */
    public static VarianceComponents of(List<PassError> passes, double readingVarianceMm2) {
        if (!(readingVarianceMm2 >= 0 && readingVarianceMm2 < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("variance of a reading must be at least 0: " + readingVarianceMm2);
        }
        List<ConditionBlock> conditions = ConditionBlock.of(passes);
        double squares = 0;
        int freedom = 0;
        boolean severalSeries = false;
        for (ConditionBlock condition : conditions) {
            WithinScatter.Squares own = WithinScatter.squares(condition);
            squares += own.sumMm2();
            freedom += own.degreesOfFreedom();
            severalSeries |= condition.series() > 1;
        }
        Double pooled = freedom == 0 ? null : Math.sqrt(squares / freedom);
        SplitReason reason = freedom < 2 ? SplitReason.NO_REPEATS : separable(passes) ? null : SplitReason.ONE_STROKE;
        if (freedom < 2 || pooled == null || pooled == 0 || (reason != null && !severalSeries)) {
            return new VarianceComponents(
                    pooled, freedom, null, null, reason == null ? SplitReason.NO_REPEATS : reason, null, Method.POOLED);
        }
        // with one stroke the start component stands for the whole scatter within a series
        ComponentFit fit =
                new ComponentFit(conditions, readingVarianceMm2, new boolean[] {true, reason == null, severalSeries});
        double[] theta = fit.maximise(pooled * pooled);
        if (theta == null) {
            return new VarianceComponents(pooled, freedom, null, null, reason, null, Method.POOLED);
        }
        Estimate[] estimates = fit.estimates(theta);
        return new VarianceComponents(
                pooled,
                freedom,
                reason == null ? estimates[START] : null,
                reason == null ? estimates[TRAVEL] : null,
                reason,
                severalSeries ? estimates[SERIES] : null,
                Method.RESTRICTED_LIKELIHOOD);
    }

    /** Tells whether start and travel can be told apart: strokes of ratio 3, or passes with different starts per length. */
    public static boolean separable(List<PassError> passes) {
        double shortest = Double.POSITIVE_INFINITY;
        double longest = 0;
        for (PassError pass : passes) {
            double perStart = pass.travelMm() / pass.starts();
            shortest = Math.min(shortest, perStart);
            longest = Math.max(longest, perStart);
        }
        return longest >= STROKE_RATIO * shortest;
    }

    private double @Nullable [] maximise(double scale) {
        double[] theta = new double[3];
        for (int i = 0; i < 3; i++) {
            theta[i] = active[i] ? scale / 3 : 0;
        }
        Score score = score(theta);
        for (int iteration = 0; iteration < ITERATIONS; iteration++) {
            if (!Double.isFinite(score.logLikelihood)) {
                return null;
            }
            double[] step = step(theta, score);
            double width = 1;
            boolean grown = false;
            double change = 0;
            for (int half = 0; half < 30 && !grown; half++) {
                double[] next = new double[3];
                for (int i = 0; i < 3; i++) {
                    next[i] = active[i] ? Math.max(0, theta[i] + width * step[i]) : 0;
                }
                Score other = score(next);
                if (other.logLikelihood > score.logLikelihood) {
                    change = other.logLikelihood - score.logLikelihood;
                    theta = next;
                    score = other;
                    grown = true;
                }
                width /= 2;
            }
            if (!grown || change < 1e-9) {
                return theta;
            }
        }
        return theta;
    }

    /** Fisher step for the components that are free: not at 0 with the likelihood falling into the positive. */
    private double[] step(double[] theta, Score score) {
        int[] free = new int[3];
        int count = 0;
        for (int i = 0; i < 3; i++) {
            if (active[i] && (theta[i] > 0 || score.gradient[i] > 0)) {
                free[count++] = i;
            }
        }
        double[] step = new double[3];
        if (count == 0) {
            return step;
        }
        RealMatrix information = MatrixUtils.createRealMatrix(count, count);
        double[] gradient = new double[count];
        for (int i = 0; i < count; i++) {
            gradient[i] = score.gradient[free[i]];
            for (int j = 0; j < count; j++) {
                information.setEntry(i, j, score.information[free[i]][free[j]]);
            }
            information.addToEntry(i, i, 1e-9 * score.information[free[i]][free[i]]);
        }
        double[] solved = new CholeskyDecomposition(information, 1e-6, 0)
                .getSolver()
                .solve(MatrixUtils.createRealVector(gradient))
                .toArray();
        for (int i = 0; i < count; i++) {
            step[free[i]] = solved[i];
        }
        return step;
    }

    private Estimate[] estimates(double[] theta) {
        Score score = score(theta);
        double[] variance = variances(theta, score);
        Estimate[] out = new Estimate[3];
        for (int i = 0; i < 3; i++) {
            if (!active[i]) {
                out[i] = new Estimate(0, 0, 0);
            } else if (theta[i] > 0 && 2 * theta[i] * theta[i] / variance[i] > LEAST_FREEDOM) {
                double nu = 2 * theta[i] * theta[i] / variance[i];
                out[i] = new Estimate(
                        Math.sqrt(theta[i]),
                        Math.sqrt(theta[i] * nu / Distributions.chiSquaredQuantile(0.975, nu)),
                        Math.sqrt(theta[i] * nu / Distributions.chiSquaredQuantile(0.025, nu)));
            } else {
                out[i] = new Estimate(Math.sqrt(theta[i]), 0, Math.sqrt(upperBound(theta, i, score)));
            }
        }
        return out;
    }

    private double[] variances(double[] theta, Score score) {
        int[] free = new int[3];
        int count = 0;
        for (int i = 0; i < 3; i++) {
            if (active[i] && theta[i] > 0) {
                free[count++] = i;
            }
        }
        double[] out = {Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY};
        if (count > 0) {
            RealMatrix information = MatrixUtils.createRealMatrix(count, count);
            for (int i = 0; i < count; i++) {
                for (int j = 0; j < count; j++) {
                    information.setEntry(i, j, score.information[free[i]][free[j]]);
                }
                information.addToEntry(i, i, 1e-9 * score.information[free[i]][free[i]]);
            }
            RealMatrix inverse =
                    new CholeskyDecomposition(information, 1e-6, 0).getSolver().getInverse();
            for (int i = 0; i < count; i++) {
                out[free[i]] = inverse.getEntry(i, i);
            }
        }
        return out;
    }

    /** Returns the value of one component, the others held, at which the likelihood has dropped by the 95 % amount. */
    private double upperBound(double[] theta, int component, Score best) {
        double wanted = best.logLikelihood - LIKELIHOOD_DROP;
        double[] other = theta.clone();
        double low = theta[component];
        double high = Math.max(low, 1 / Math.sqrt(best.information[component][component]));
        for (int i = 0; i < 60; i++) {
            other[component] = high;
            if (score(other).logLikelihood < wanted) {
                break;
            }
            high *= 2;
        }
        for (int i = 0; i < 50; i++) {
            double middle = 0.5 * (low + high);
            other[component] = middle;
            if (score(other).logLikelihood < wanted) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return high;
    }

    private Score score(double[] theta) {
        Score out = new Score();
        for (ConditionLikelihood condition : conditions) {
            condition.addTo(out, theta);
        }
        return out;
    }
}
