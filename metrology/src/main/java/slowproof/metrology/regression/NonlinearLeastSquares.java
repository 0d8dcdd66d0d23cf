package slowproof.metrology.regression;

import java.util.Arrays;
import java.util.List;
import slowproof.metrology.Check;

/**
 * Nonlinear least squares: Levenberg-Marquardt with exact derivatives, finished by Gauss-Newton steps on an orthogonal
 * factorisation. With several starting points the best minimum is kept.
 */
public final class NonlinearLeastSquares {
    private NonlinearLeastSquares() {}

    /**
     * Fits responses of equal, unknown scatter.
     *
     * @param model the curve
     * @param x the points, one row per response; not modified
     * @param y responses; not modified
     * @param starts starting points, at least one; not modified
     * @return the best minimum found
     * @throws IllegalArgumentException if lengths differ, a number is not finite, there are not more responses than
     *     parameters, the curve cannot be evaluated at any starting point, or the parameters cannot be told apart at
     *     the solution
     */
    public static NonlinearFit fit(CurveModel model, double[][] x, double[] y, List<double[]> starts) {
        return best(model, x, y, ones(y.length), starts, false);
    }

    /**
     * Fits independent responses of known standard uncertainty.
     *
     * @param model the curve
     * @param x the points, one row per response; not modified
     * @param y responses; not modified
     * @param standardUncertainties of the responses, above 0; not modified
     * @param starts starting points, at least one; not modified
     * @return the best minimum found, its covariance following from the stated uncertainties alone
     * @throws IllegalArgumentException as for {@link #fit}, or if an uncertainty is not above 0
     */
    public static NonlinearFit known(
            CurveModel model, double[][] x, double[] y, double[] standardUncertainties, List<double[]> starts) {
        Matrices.sameLength(y.length, standardUncertainties.length, "standard uncertainties");
        Matrices.positive(standardUncertainties, "standard uncertainty");
        return best(
                model,
                x,
                y,
                Arrays.stream(standardUncertainties).map(u -> 1 / u).toArray(),
                starts,
                true);
    }

    private static NonlinearFit best(
            CurveModel model, double[][] x, double[] y, double[] rootWeights, List<double[]> starts, boolean known) {
        Matrices.sameLength(y.length, x.length, "points");
        Check.allFinite(y, "responses");
        if (starts.isEmpty()) {
            throw new IllegalArgumentException("a nonlinear fit needs a starting point");
        }
        CurveProblem.Point best = null;
        CurveProblem problem = new CurveProblem(model, x, y, rootWeights);
        for (double[] start : starts) {
            Check.allFinite(start, "starting values");
            if (y.length <= start.length) {
                throw new IllegalArgumentException(
                        y.length + " responses leave no degree of freedom with " + start.length + " parameters");
            }
            CurveProblem.Point found = problem.minimise(start);
            if (best == null || found.sumOfSquares() < best.sumOfSquares()) {
                best = found;
            }
        }
        if (best == null || !best.usable()) {
            throw new IllegalArgumentException("the curve cannot be evaluated at any starting point");
        }
        return problem.result(best, known);
    }

    private static double[] ones(int size) {
        double[] result = new double[size];
        Arrays.fill(result, 1);
        return result;
    }
}
