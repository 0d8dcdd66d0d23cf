package slowproof.metrology.regression;

import java.util.Arrays;
import org.hipparchus.analysis.differentiation.Gradient;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.util.Pair;

/** One data set with its curve; residuals and tangents are in units of each response's own scatter. */
final class CurveProblem {
    private static final int MOST_EVALUATIONS = 5_000;
    private static final int MOST_POLISHING_STEPS = 100;
    private static final double TOLERANCE = 1e-14;

    // A step this much shorter than the one before still gains digits.
    private static final double SHRINKING = 0.9;

    // Relative difference below which two sums of squares may be the same number, rounded differently.
    private static final double INDISTINGUISHABLE = 1e-9;

    // Cosine between the residuals and the tangents below which the point counts as a minimum.
    private static final double ORTHOGONAL = 1e-6;

    // Residuals below this share of the responses are rounding.
    private static final double ROUNDING = 1e-13;

    // Stands in for a value that the curve does not have, so that the search turns away from there.
    private static final double FAR_AWAY = 1e100;

    private final CurveModel model;
    private final double[][] x;
    private final double[] y;
    private final double[] rootWeights;

    CurveProblem(CurveModel model, double[][] x, double[] y, double[] rootWeights) {
        this.model = model;
        this.x = x;
        this.y = y;
        this.rootWeights = rootWeights;
    }

    /** A set of parameters with the residuals and tangents there. */
    static final class Point {
        private final double[] parameters;
        private final double[] residuals;
        private final double[][] tangents;
        private final double sumOfSquares;

        private Point(double[] parameters, double[] residuals, double[][] tangents) {
            this.parameters = parameters;
            this.residuals = residuals;
            this.tangents = tangents;
            this.sumOfSquares = Matrices.sumOfSquares(residuals);
        }

        double sumOfSquares() {
            return sumOfSquares;
        }

        boolean usable() {
            return sumOfSquares < FAR_AWAY;
        }
    }

    Point minimise(double[] start) {
        Point[] best = {at(start)};
        LevenbergMarquardtOptimizer optimizer = new LevenbergMarquardtOptimizer()
                .withCostRelativeTolerance(TOLERANCE)
                .withParameterRelativeTolerance(TOLERANCE)
                .withOrthoTolerance(TOLERANCE);
        try {
            optimizer.optimize(new LeastSquaresBuilder()
                    .start(start)
                    .target(new double[y.length])
                    .model(point -> evaluated(point, best))
                    .lazyEvaluation(false)
                    .maxEvaluations(MOST_EVALUATIONS)
                    .maxIterations(MOST_EVALUATIONS)
                    .build());
        } catch (MathRuntimeException e) {
            // the search gives up at the limit of its precision or of its steps; the best point so far stands
            return polished(best[0]);
        }
        return polished(best[0]);
    }

    NonlinearFit result(Point point, boolean known) {
        int size = point.parameters.length;
        double[][] covariance;
        try {
            covariance = new OrthogonalSolver(negative(point.tangents), null).inverseNormalMatrix();
        } catch (IllegalArgumentException e) {
            throw new IllegalArgumentException(
                    "the data do not tell the parameters apart at the best point found: "
                            + Arrays.toString(point.parameters),
                    e);
        }
        double factor = known ? 1 : point.sumOfSquares / (y.length - size);
        for (double[] row : covariance) {
            for (int j = 0; j < size; j++) {
                row[j] *= factor;
            }
        }
        double[] residuals = point.residuals.clone();
        for (int i = 0; i < residuals.length; i++) {
            residuals[i] /= rootWeights[i];
        }
        return new NonlinearFit(point.parameters, covariance, residuals, point.sumOfSquares, known, isMinimum(point));
    }

    private Pair<RealVector, RealMatrix> evaluated(RealVector parameters, Point[] best) {
        Point point = at(parameters.toArray());
        if (point.sumOfSquares < best[0].sumOfSquares) {
            best[0] = point;
        }
        return new Pair<>(new ArrayRealVector(point.residuals, false), new Array2DRowRealMatrix(point.tangents, false));
    }

    // Gauss-Newton steps on the orthogonal factorisation for as long as they keep shrinking. Close to the minimum the
    // sum of squares no longer tells one point from another, but the steps still do.
    private Point polished(Point point) {
        Point best = point;
        double last = Double.POSITIVE_INFINITY;
        for (int step = 0; step < MOST_POLISHING_STEPS && best.usable(); step++) {
            double[] change;
            try {
                change = new OrthogonalSolver(negative(best.tangents), null)
                        .solve(best.residuals)
                        .coefficients();
            } catch (IllegalArgumentException e) {
                // parameters cannot be told apart here; the caller learns it from the covariance
                return best;
            }
            double[] next = best.parameters.clone();
            double length = 0;
            for (int j = 0; j < next.length; j++) {
                next[j] += change[j];
                length = Math.max(length, Math.abs(change[j]) / Math.max(Math.abs(next[j]), Double.MIN_NORMAL));
            }
            Point candidate = at(next);
            if (!(length < SHRINKING * last && candidate.sumOfSquares <= best.sumOfSquares * (1 + INDISTINGUISHABLE))) {
                break;
            }
            best = candidate;
            last = length;
        }
        return best;
    }

    private boolean isMinimum(Point point) {
        double length = Math.sqrt(point.sumOfSquares);
        double responses = 0;
        for (int i = 0; i < y.length; i++) {
            responses = Math.max(responses, Math.abs(y[i] * rootWeights[i]));
        }
        if (length <= ROUNDING * responses) {
            return true;
        }
        for (int j = 0; j < point.parameters.length; j++) {
            double product = 0;
            double tangent = 0;
            for (int i = 0; i < y.length; i++) {
                product += point.tangents[i][j] * point.residuals[i];
                tangent += point.tangents[i][j] * point.tangents[i][j];
            }
            if (!(Math.abs(product) <= ORTHOGONAL * length * Math.sqrt(tangent))) {
                return false;
            }
        }
        return true;
    }

    // residuals: weighted observed minus fitted; tangents: their derivatives
    private Point at(double[] parameters) {
        int size = parameters.length;
        Gradient[] variables = new Gradient[size];
        for (int j = 0; j < size; j++) {
            variables[j] = Gradient.variable(size, j, parameters[j]);
        }
        double[] residuals = new double[y.length];
        double[][] tangents = new double[y.length][size];
        for (int i = 0; i < y.length; i++) {
            Gradient value = model.value(variables.clone(), x[i].clone());
            double residual = (y[i] - value.getValue()) * rootWeights[i];
            if (!Double.isFinite(residual)) {
                residuals[i] = FAR_AWAY;
                continue;
            }
            residuals[i] = residual;
            double[] slopes = value.getGradient();
            for (int j = 0; j < size; j++) {
                double slope = -slopes[j] * rootWeights[i];
                tangents[i][j] = Double.isFinite(slope) ? slope : 0;
            }
        }
        return new Point(parameters, residuals, tangents);
    }

    private static double[][] negative(double[][] matrix) {
        double[][] result = Matrices.copy(matrix);
        for (double[] row : result) {
            for (int j = 0; j < row.length; j++) {
                row[j] = -row[j];
            }
        }
        return result;
    }
}
