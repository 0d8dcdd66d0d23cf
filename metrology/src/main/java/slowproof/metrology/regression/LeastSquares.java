package slowproof.metrology.regression;

import java.util.Arrays;
import org.hipparchus.exception.MathIllegalArgumentException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.CholeskyDecomposition;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Check;

/**
 * Linear least squares by orthogonal factorisation, never by the normal equations.
 *
 * <p>Four ways to say how much each response is worth: alike ({@link #ordinary}), by relative weights ({@link
 * #weighted}), by known standard uncertainties ({@link #known}), by a known covariance ({@link #generalised}). The
 * first two estimate the scatter from the residuals, the last two take it as given; ISO/TS 28037:2010, clauses 6 and
 * 10 (from memory), treats the straight line in the same way.
 */
public final class LeastSquares {
    // A relative asymmetry of a covariance matrix below this is rounding.
    private static final double ASYMMETRY = 1e-12;

    private LeastSquares() {}

    /**
     * Fits responses of equal, unknown scatter.
     *
     * @param rows the design, one row per response, equal lengths; not modified
     * @param y responses, one per row; not modified
     * @return the fit, its scatter estimated from the residuals
     * @throws IllegalArgumentException if lengths differ, a number is not finite, there are fewer rows than columns, or
     *     the columns are linearly dependent
     */
    public static LinearFit ordinary(double[][] rows, double[] y) {
        Matrices.checkDesign(rows, y);
        return fit(rows, null, y, ones(y.length), false);
    }

    /**
     * Fits responses whose variances are known up to a common factor.
     *
     * @param rows the design, one row per response, equal lengths; not modified
     * @param y responses, one per row; not modified
     * @param weights reciprocals of the relative variances, above 0, one per row; not modified
     * @return the fit, its common factor estimated from the residuals
     * @throws IllegalArgumentException if lengths differ, a number is not finite, a weight is not above 0, there are
     *     fewer rows than columns, or the columns are linearly dependent
     */
    public static LinearFit weighted(double[][] rows, double[] y, double[] weights) {
        Matrices.checkDesign(rows, y);
        Matrices.sameLength(y.length, weights.length, "weights");
        Matrices.positive(weights, "weight");
        double[] root = new double[y.length];
        for (int i = 0; i < root.length; i++) {
            root[i] = Math.sqrt(weights[i]);
        }
        return fit(rows, null, y, root, false);
    }

    /**
     * Fits independent responses of known standard uncertainty.
     *
     * @param rows the design, one row per response, equal lengths; not modified
     * @param y responses, one per row; not modified
     * @param standardUncertainties of the responses, above 0, in their unit; not modified
     * @return the fit, its covariance following from the stated uncertainties alone
     * @throws IllegalArgumentException if lengths differ, a number is not finite, an uncertainty is not above 0, there
     *     are fewer rows than columns, or the columns are linearly dependent
     */
    public static LinearFit known(double[][] rows, double[] y, double[] standardUncertainties) {
        Matrices.checkDesign(rows, y);
        Matrices.sameLength(y.length, standardUncertainties.length, "standard uncertainties");
        Matrices.positive(standardUncertainties, "standard uncertainty");
        double[] root = new double[y.length];
        for (int i = 0; i < root.length; i++) {
            root[i] = 1 / standardUncertainties[i];
        }
        return fit(rows, null, y, root, true);
    }

    /**
     * Fits responses of known covariance.
     *
     * @param rows the design, one row per response, equal lengths; not modified
     * @param y responses, one per row; not modified
     * @param covariance of the responses, symmetric and positive definite, in their squared unit; not modified
     * @return the fit, its covariance following from the stated one alone
     * @throws IllegalArgumentException if lengths differ, a number is not finite, the covariance is not symmetric and
     *     positive definite, there are fewer rows than columns, or the columns are linearly dependent
     */
    public static LinearFit generalised(double[][] rows, double[] y, double[][] covariance) {
        Matrices.checkDesign(rows, y);
        double[][] factor = choleskyFactor(covariance, y.length);
        double[][] whiteRows = whitened(factor, rows);
        double[] white = whitened(factor, y);
        double[] constant = whitened(factor, ones(y.length));
        OrthogonalSolver solver = new OrthogonalSolver(whiteRows, null);
        OrthogonalSolver.Solution solution = solver.solve(white);
        double[] residuals = new double[y.length];
        for (int i = 0; i < residuals.length; i++) {
            residuals[i] = y[i] - Matrices.dot(rows[i], solution.coefficients());
        }
        return assemble(solver, solution, white, constant, residuals, true);
    }

    /**
     * Fits a polynomial c_0 + c_1 x + ... + c_d x^d to responses of equal, unknown scatter.
     *
     * <p>The powers are carried with their rounding errors, so that high degrees on raw abscissae keep their digits.
     *
     * @param x abscissae, any unit; not modified
     * @param y responses, one per abscissa; not modified
     * @param degree at least 0
     * @return the fit; coefficient k belongs to x^k
     * @throws IllegalArgumentException if lengths differ, a number is not finite, the degree is negative, or there are
     *     too few distinct abscissae
     */
    public static LinearFit polynomial(double[] x, double[] y, int degree) {
        if (degree < 0) {
            throw new IllegalArgumentException("degree must be at least 0: " + degree);
        }
        double[][] high = new double[x.length][degree + 1];
        double[][] low = new double[x.length][degree + 1];
        for (int i = 0; i < x.length; i++) {
            high[i][0] = 1;
            for (int k = 1; k <= degree; k++) {
                high[i][k] = high[i][k - 1] * x[i];
                low[i][k] = Math.fma(high[i][k - 1], x[i], -high[i][k]) + low[i][k - 1] * x[i];
            }
        }
        Matrices.checkDesign(high, y);
        return fit(high, low, y, ones(y.length), false);
    }

    private static LinearFit fit(
            double[][] rows, double @Nullable [][] low, double[] y, double[] rootWeights, boolean scaleKnown) {
        OrthogonalSolver solver =
                new OrthogonalSolver(multiplied(rows, rootWeights), low == null ? null : multiplied(low, rootWeights));
        double[] white = multiplied(y, rootWeights);
        OrthogonalSolver.Solution solution = solver.solve(white);
        double[] residuals = solution.residuals().clone();
        for (int i = 0; i < residuals.length; i++) {
            residuals[i] /= rootWeights[i];
        }
        return assemble(solver, solution, white, rootWeights, residuals, scaleKnown);
    }

    // white: whitened responses; constant: the whitened column of ones
    private static LinearFit assemble(
            OrthogonalSolver solver,
            OrthogonalSolver.Solution solution,
            double[] white,
            double[] constant,
            double[] residuals,
            boolean scaleKnown) {
        double[] whiteResiduals = solution.residuals();
        double residualSum = Matrices.sumOfSquares(whiteResiduals);
        double mean = Matrices.dot(constant, white) / Matrices.sumOfSquares(constant);
        double aboutMean = 0;
        double aboutZero = 0;
        for (int i = 0; i < white.length; i++) {
            double fitted = white[i] - whiteResiduals[i];
            double departure = fitted - mean * constant[i];
            aboutZero += fitted * fitted;
            aboutMean += departure * departure;
        }
        int size = solution.coefficients().length;
        int free = white.length - size;
        return new LinearFit(
                solution.coefficients(),
                solver.inverseNormalMatrix(),
                residuals,
                residualSum,
                scaleKnown,
                new VarianceSplit(aboutMean, size - 1, residualSum, free),
                new VarianceSplit(aboutZero, size, residualSum, free));
    }

    private static double[][] choleskyFactor(double[][] covariance, int size) {
        Matrices.sameLength(size, covariance.length, "rows of the covariance");
        for (double[] row : covariance) {
            Matrices.sameLength(size, row.length, "columns of the covariance");
            Check.allFinite(row, "entries of the covariance");
        }
        try {
            return new CholeskyDecomposition(new Array2DRowRealMatrix(covariance), ASYMMETRY, 0)
                    .getL()
                    .getData();
        } catch (MathIllegalArgumentException e) {
            throw new IllegalArgumentException("the covariance is not symmetric and positive definite", e);
        }
    }

    // L^-1 v
    private static double[] whitened(double[][] factor, double[] v) {
        double[] result = new double[v.length];
        for (int i = 0; i < v.length; i++) {
            double sum = v[i];
            for (int k = 0; k < i; k++) {
                sum -= factor[i][k] * result[k];
            }
            result[i] = sum / factor[i][i];
        }
        return result;
    }

    private static double[][] whitened(double[][] factor, double[][] rows) {
        int columns = rows[0].length;
        double[][] result = new double[rows.length][columns];
        for (int i = 0; i < rows.length; i++) {
            for (int j = 0; j < columns; j++) {
                double sum = rows[i][j];
                for (int k = 0; k < i; k++) {
                    sum -= factor[i][k] * result[k][j];
                }
                result[i][j] = sum / factor[i][i];
            }
        }
        return result;
    }

    private static double[][] multiplied(double[][] rows, double[] factors) {
        double[][] result = new double[rows.length][rows[0].length];
        for (int i = 0; i < rows.length; i++) {
            for (int j = 0; j < rows[i].length; j++) {
                result[i][j] = rows[i][j] * factors[i];
            }
        }
        return result;
    }

    private static double[] multiplied(double[] v, double[] factors) {
        double[] result = new double[v.length];
        for (int i = 0; i < v.length; i++) {
            result[i] = v[i] * factors[i];
        }
        return result;
    }

    private static double[] ones(int size) {
        double[] result = new double[size];
        Arrays.fill(result, 1);
        return result;
    }
}
