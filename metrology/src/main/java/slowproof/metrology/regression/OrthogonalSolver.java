package slowproof.metrology.regression;

import java.util.Arrays;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.util.FastMath;
import org.hipparchus.util.MathArrays;
import org.jspecify.annotations.Nullable;

/**
 * Least squares by Householder QR of the column-scaled design, with iterative refinement where the design is nearly
 * singular.
 *
 * <p>The normal equations would square the condition number. Refinement follows the augmented system of residual and
 * solution (Å. Björck, BIT 7 (1967) 257, from memory) with dot products in twice the working precision, and so
 * recovers most of the digits that a nearly singular design costs. Columns may carry a low part, the rounding error
 * of their entries, which takes part in the refinement: the powers of a polynomial are then as good as exact.
 */
final class OrthogonalSolver {
    // Ratio of the largest to the smallest diagonal of R from which on refinement pays: plain QR keeps about
    // 16 - log10(ratio) digits. The covariance needs fewer digits and costs one solution for each column.
    private static final double REFINE_SOLUTION_FROM = 1e2;
    private static final double REFINE_COVARIANCE_FROM = 1e5;

    // Beyond this ratio the columns count as linearly dependent in double precision.
    private static final double SINGULAR_FROM = 1e14;

    private static final int MOST_REFINEMENTS = 12;

    private final int rowCount;
    private final int columnCount;
    private final double[] scale;
    private final double[][] columns;
    private final double @Nullable [][] lowColumns;
    private final double[][] rows;
    private final DecompositionSolver solver;
    private final double[][] upper;
    private final double diagonalRatio;

    /**
     * Factorises a design.
     *
     * @param design rows of equal length, more rows than columns or as many; not modified
     * @param low rounding errors of the entries, same shape, or null
     * @throws IllegalArgumentException if the columns are linearly dependent in double precision
     */
    OrthogonalSolver(double[][] design, double @Nullable [][] low) {
        rowCount = design.length;
        columnCount = design[0].length;
        scale = columnScales(design);
        rows = scaled(design, scale);
        columns = transpose(rows);
        lowColumns = low == null ? null : transpose(scaled(low, scale));
        QRDecomposition qr = new QRDecomposition(new Array2DRowRealMatrix(rows, false), 0);
        RealMatrix r = qr.getR();
        upper = new double[columnCount][columnCount];
        double largest = 0;
        double smallest = Double.POSITIVE_INFINITY;
        for (int i = 0; i < columnCount; i++) {
            for (int j = i; j < columnCount; j++) {
                upper[i][j] = r.getEntry(i, j);
            }
            largest = Math.max(largest, Math.abs(upper[i][i]));
            smallest = Math.min(smallest, Math.abs(upper[i][i]));
        }
        diagonalRatio = largest / smallest;
        if (!(diagonalRatio < SINGULAR_FROM)) {
            throw new IllegalArgumentException(
                    "columns of the design are linearly dependent: " + columnCount + " columns, " + rowCount + " rows");
        }
        solver = qr.getSolver();
    }

    /** Coefficients that minimise the sum of squared differences from y, and the residuals y - X b. */
    Solution solve(double[] y) {
        Solution scaled = augmented(y, new double[columnCount], REFINE_SOLUTION_FROM);
        return new Solution(unscale(scaled.coefficients()), scaled.residuals());
    }

    /** Inverse of X'X. */
    double[][] inverseNormalMatrix() {
        double[][] inverse = new double[columnCount][];
        double[] zero = new double[rowCount];
        for (int j = 0; j < columnCount; j++) {
            // with no data and X'r = -e_j the augmented system gives column j of the inverse
            double[] unit = new double[columnCount];
            unit[j] = -1;
            double[] column =
                    unscale(augmented(zero, unit, REFINE_COVARIANCE_FROM).coefficients());
            inverse[j] = column;
            for (int i = 0; i < columnCount; i++) {
                column[i] *= scale[j];
            }
        }
        for (int i = 0; i < columnCount; i++) {
            for (int j = 0; j < i; j++) {
                double mean = (inverse[i][j] + inverse[j][i]) / 2;
                inverse[i][j] = mean;
                inverse[j][i] = mean;
            }
        }
        return inverse;
    }

    /**
     * Coefficients and residuals of one fit. The residuals are refined on their own, so they do not carry the rounding
     * of the coefficients.
     */
    static final class Solution {
        private final double[] coefficients;
        private final double[] residuals;

        private Solution(double[] coefficients, double[] residuals) {
            this.coefficients = coefficients;
            this.residuals = residuals;
        }

        double[] coefficients() {
            return coefficients;
        }

        double[] residuals() {
            return residuals;
        }
    }

    /** Natural logarithm of the determinant of X'X. */
    double logDeterminant() {
        double sum = 0;
        for (int j = 0; j < columnCount; j++) {
            sum += FastMath.log(Math.abs(upper[j][j])) - FastMath.log(scale[j]);
        }
        return 2 * sum;
    }

    // Solves r + X b = f, X'r = g, all in scaled columns.
    private Solution augmented(double[] f, double[] g, double refineFrom) {
        double[] b = subtract(pseudoSolve(f), normalSolve(g));
        double[] r = defect(f, new double[rowCount], b);
        if (diagonalRatio < refineFrom) {
            return new Solution(b, r);
        }
        double last = Double.POSITIVE_INFINITY;
        for (int step = 0; step < MOST_REFINEMENTS; step++) {
            double[] f1 = defect(f, r, b);
            double[] g1 = normalDefect(g, r);
            double[] db = subtract(pseudoSolve(f1), normalSolve(g1));
            double change = relativeChange(db, b);
            if (!(change < last / 2)) {
                break;
            }
            double[] dr = defect(f1, new double[rowCount], db);
            b = add(b, db);
            r = add(r, dr);
            last = change;
        }
        return new Solution(b, r);
    }

    // f - r - X b
    private double[] defect(double[] f, double[] r, double[] b) {
        int terms = columnCount * (lowColumns == null ? 1 : 2) + 2;
        double[] left = new double[terms];
        double[] right = new double[terms];
        left[0] = 1;
        left[1] = -1;
        double[] result = new double[rowCount];
        for (int i = 0; i < rowCount; i++) {
            right[0] = f[i];
            right[1] = r[i];
            for (int j = 0; j < columnCount; j++) {
                left[2 + j] = -rows[i][j];
                right[2 + j] = b[j];
                if (lowColumns != null) {
                    left[2 + columnCount + j] = -lowColumns[j][i];
                    right[2 + columnCount + j] = b[j];
                }
            }
            result[i] = MathArrays.linearCombination(left, right);
        }
        return result;
    }

    // g - X'r
    private double[] normalDefect(double[] g, double[] r) {
        double[] result = new double[columnCount];
        double[] left = new double[2 * rowCount + 1];
        double[] right = new double[2 * rowCount + 1];
        for (int j = 0; j < columnCount; j++) {
            left[0] = g[j];
            right[0] = 1;
            for (int i = 0; i < rowCount; i++) {
                left[1 + i] = -columns[j][i];
                right[1 + i] = r[i];
                left[1 + rowCount + i] = lowColumns == null ? 0 : -lowColumns[j][i];
                right[1 + rowCount + i] = r[i];
            }
            result[j] = MathArrays.linearCombination(left, right);
        }
        return result;
    }

    private double[] pseudoSolve(double[] f) {
        return solver.solve(new ArrayRealVector(f, false)).toArray();
    }

    // (R'R)^-1 g
    private double[] normalSolve(double[] g) {
        double[] z = new double[columnCount];
        for (int i = 0; i < columnCount; i++) {
            double sum = g[i];
            for (int k = 0; k < i; k++) {
                sum -= upper[k][i] * z[k];
            }
            z[i] = sum / upper[i][i];
        }
        for (int i = columnCount - 1; i >= 0; i--) {
            double sum = z[i];
            for (int k = i + 1; k < columnCount; k++) {
                sum -= upper[i][k] * z[k];
            }
            z[i] = sum / upper[i][i];
        }
        return z;
    }

    private double[] unscale(double[] b) {
        double[] result = new double[columnCount];
        for (int j = 0; j < columnCount; j++) {
            result[j] = b[j] * scale[j];
        }
        return result;
    }

    // Powers of two, so that scaling rounds nothing.
    private static double[] columnScales(double[][] design) {
        double[] scale = new double[design[0].length];
        for (int j = 0; j < scale.length; j++) {
            double largest = 0;
            for (double[] row : design) {
                largest = Math.max(largest, Math.abs(row[j]));
            }
            scale[j] = largest == 0 ? 1 : FastMath.scalb(1.0, -FastMath.getExponent(largest));
        }
        return scale;
    }

    private static double[][] scaled(double[][] design, double[] scale) {
        double[][] result = new double[design.length][scale.length];
        for (int i = 0; i < design.length; i++) {
            for (int j = 0; j < scale.length; j++) {
                result[i][j] = design[i][j] * scale[j];
            }
        }
        return result;
    }

    private static double[][] transpose(double[][] matrix) {
        double[][] result = new double[matrix[0].length][matrix.length];
        for (int i = 0; i < matrix.length; i++) {
            for (int j = 0; j < matrix[0].length; j++) {
                result[j][i] = matrix[i][j];
            }
        }
        return result;
    }

    private static double relativeChange(double[] db, double[] b) {
        double change = 0;
        double size = Double.MIN_NORMAL;
        for (int j = 0; j < b.length; j++) {
            change = Math.max(change, Math.abs(db[j]));
            size = Math.max(size, Math.abs(b[j]));
        }
        return change / size;
    }

    private static double[] subtract(double[] a, double[] b) {
        double[] result = Arrays.copyOf(a, a.length);
        for (int i = 0; i < result.length; i++) {
            result[i] -= b[i];
        }
        return result;
    }

    private static double[] add(double[] a, double[] b) {
        double[] result = Arrays.copyOf(a, a.length);
        for (int i = 0; i < result.length; i++) {
            result[i] += b[i];
        }
        return result;
    }
}
