package slowproof.metrology.regression;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.optim.MaxIter;
import org.hipparchus.optim.linear.LinearConstraint;
import org.hipparchus.optim.linear.LinearConstraintSet;
import org.hipparchus.optim.linear.LinearObjectiveFunction;
import org.hipparchus.optim.linear.NonNegativeConstraint;
import org.hipparchus.optim.linear.Relationship;
import org.hipparchus.optim.linear.SimplexSolver;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.util.FastMath;

/**
 * Logistic regression of a yes/no outcome.
 *
 * <p>Where a plane through the predictors separates all yes from all no, the likelihood has no maximum (A. Albert, J.
 * Anderson, Biometrika 71 (1984) 1, from memory); {@link #separated} finds that out beforehand. The bias-reduced fit
 * ({@link #firth}; D. Firth, Biometrika 80 (1993) 27, from memory) exists always.
 */
public final class Logistic {
    private static final int MOST_STEPS = 200;
    private static final int MOST_HALVINGS = 60;
    private static final double CONVERGED = 1e-11;

    // Largest change of a linear predictor in one step, in logits; keeps the information away from 0.
    private static final double LONGEST_STEP = 3;

    private static final double OVERLAP = 1e-9;

    private Logistic() {}

    /**
     * Whether some plane through the predictors has all yes on or above it and all no on or below it, not all of them
     * on it.
     *
     * @param rows predictors, usually beginning with a 1; one row per outcome, equal lengths; not modified
     * @param outcomes one per row; not modified
     * @return true when the maximum-likelihood fit does not exist
     * @throws IllegalArgumentException if lengths differ, a number is not finite or there are fewer rows than columns
     */
    public static boolean separated(double[][] rows, boolean[] outcomes) {
        check(rows, outcomes);
        int size = rows[0].length;
        double[] scale = new double[size];
        for (double[] row : rows) {
            for (int j = 0; j < size; j++) {
                scale[j] = Math.max(scale[j], Math.abs(row[j]));
            }
        }
        // K. Konis (2007): maximise the sum of signed distances over a box of directions; 0 means overlap
        double[] objective = new double[size];
        List<LinearConstraint> constraints = new ArrayList<>();
        for (int i = 0; i < rows.length; i++) {
            double[] signed = new double[size];
            for (int j = 0; j < size; j++) {
                signed[j] = scale[j] == 0 ? 0 : (outcomes[i] ? 1 : -1) * rows[i][j] / scale[j];
                objective[j] += signed[j];
            }
            constraints.add(new LinearConstraint(signed, Relationship.GEQ, 0));
        }
        for (int j = 0; j < size; j++) {
            double[] unit = new double[size];
            unit[j] = 1;
            constraints.add(new LinearConstraint(unit, Relationship.LEQ, 1));
            constraints.add(new LinearConstraint(unit, Relationship.GEQ, -1));
        }
        double best = new SimplexSolver()
                .optimize(
                        new LinearObjectiveFunction(objective, 0),
                        new LinearConstraintSet(constraints),
                        GoalType.MAXIMIZE,
                        new NonNegativeConstraint(false),
                        new MaxIter(100_000))
                .getValue();
        return best > OVERLAP * rows.length;
    }

    /**
     * Maximum-likelihood fit.
     *
     * @param rows predictors, usually beginning with a 1; one row per outcome, equal lengths; not modified
     * @param outcomes one per row; not modified
     * @return the fit
     * @throws IllegalArgumentException if lengths differ, a number is not finite, there are fewer rows than columns,
     *     the columns are linearly dependent, or the outcomes are {@link #separated}
     */
    public static LogisticFit maximumLikelihood(double[][] rows, boolean[] outcomes) {
        if (separated(rows, outcomes)) {
            throw new IllegalArgumentException(
                    "yes and no are separated by the predictors: the likelihood has no maximum");
        }
        return fit(rows, outcomes, false);
    }

    /**
     * Bias-reduced fit: the likelihood times the square root of the determinant of its information.
     *
     * @param rows predictors, usually beginning with a 1; one row per outcome, equal lengths; not modified
     * @param outcomes one per row; not modified
     * @return the fit
     * @throws IllegalArgumentException if lengths differ, a number is not finite, there are fewer rows than columns or
     *     the columns are linearly dependent
     */
    public static LogisticFit firth(double[][] rows, boolean[] outcomes) {
        check(rows, outcomes);
        return fit(rows, outcomes, true);
    }

    private static LogisticFit fit(double[][] rows, boolean[] outcomes, boolean firth) {
        State state = new State(rows, outcomes, new double[rows[0].length], firth);
        for (int step = 0; step < MOST_STEPS; step++) {
            double[] direction = state.direction();
            double effect = state.largestEffect(direction);
            State next = state;
            double factor = Math.min(1, LONGEST_STEP / effect);
            for (int halving = 0; halving < MOST_HALVINGS; halving++) {
                next = new State(rows, outcomes, moved(state.coefficients, direction, factor), firth);
                if (next.objective >= state.objective - CONVERGED) {
                    break;
                }
                factor /= 2;
            }
            state = next;
            if (effect < CONVERGED) {
                return new LogisticFit(state.coefficients, state.covariance, state.logLikelihood, firth);
            }
        }
        throw new IllegalArgumentException("the logistic fit does not settle");
    }

    private static double[] moved(double[] from, double[] direction, double factor) {
        double[] result = from.clone();
        for (int j = 0; j < result.length; j++) {
            result[j] += factor * direction[j];
        }
        return result;
    }

    private static void check(double[][] rows, boolean[] outcomes) {
        Matrices.checkDesign(rows, new double[rows.length]);
        Matrices.sameLength(rows.length, outcomes.length, "outcomes");
    }

    /** Likelihood, its slope and its information at one set of coefficients. */
    private static final class State {
        private final double[][] rows;
        private final double[] coefficients;
        private final double[][] covariance;
        private final double[] score;
        private final double logLikelihood;
        private final double objective;

        State(double[][] rows, boolean[] outcomes, double[] coefficients, boolean firth) {
            this.rows = rows;
            this.coefficients = coefficients;
            int size = coefficients.length;
            double[] shares = new double[rows.length];
            double[][] weighted = new double[rows.length][size];
            double sum = 0;
            for (int i = 0; i < rows.length; i++) {
                double eta = Matrices.dot(rows[i], coefficients);
                sum += logProbability(outcomes[i] ? eta : -eta);
                shares[i] = LogisticFit.inverseLogit(eta);
                double root = Math.sqrt(LogisticFit.inverseLogit(eta) * LogisticFit.inverseLogit(-eta));
                for (int j = 0; j < size; j++) {
                    weighted[i][j] = root * rows[i][j];
                }
            }
            OrthogonalSolver solver = new OrthogonalSolver(weighted, null);
            covariance = solver.inverseNormalMatrix();
            logLikelihood = sum;
            objective = firth ? sum + solver.logDeterminant() / 2 : sum;
            score = new double[size];
            for (int i = 0; i < rows.length; i++) {
                double leverage = firth ? Matrices.quadraticForm(weighted[i], covariance) : 0;
                double residual = (outcomes[i] ? 1 : 0) - shares[i] + leverage * (0.5 - shares[i]);
                for (int j = 0; j < size; j++) {
                    score[j] += residual * rows[i][j];
                }
            }
        }

        double[] direction() {
            double[] result = new double[score.length];
            for (int j = 0; j < result.length; j++) {
                result[j] = Matrices.dot(covariance[j], score);
            }
            return result;
        }

        double largestEffect(double[] direction) {
            double largest = 0;
            for (double[] row : rows) {
                largest = Math.max(largest, Math.abs(Matrices.dot(row, direction)));
            }
            return largest;
        }

        private static double logProbability(double eta) {
            return eta > 0 ? -FastMath.log1p(FastMath.exp(-eta)) : eta - FastMath.log1p(FastMath.exp(eta));
        }
    }
}
