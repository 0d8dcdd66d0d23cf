package slowproof.trial.clock;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.EigenDecompositionSymmetric;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;

/**
 * Scores of whole passes for a covariance that stays right when the residuals of one pass belong together.
 *
 * <p>A fit draws itself to the passes that decide it, so their residuals come out too small: the first and the last of
 * four passes, which decide the drift, keep a third of their variance. Bell and McCaffrey (2002, Survey Methodology
 * 28, from memory) divide the residuals e of a pass by (I - H)^(1/2), H being the pass's part of the hat matrix; then the
 * sum of the outer products has the right expectation. With the normal matrix L L' and the pass's rows X the divided
 * score X' (I - H)^(-1/2) e is L (I - S)^(-1/2) L^-1 X' e with S = L^-1 X'X L^-T, which is small whatever the rows.
 */
final class PassScores {
    /** A direction that one pass alone decides has no residual; its variance is left to the model. */
    private static final double LEAST_LEFT = 0.02;

    private PassScores() {}

    /**
     * Returns the sum of the outer products of the passes' scores.
     *
     * @param white whitened rows: columns, then what they explain
     * @param solution coefficients of the columns
     * @param pass pass of each row; rows of one pass stand together
     * @param lower Cholesky factor L of the normal matrix, prior included
     */
    static RealMatrix sum(double[][] white, double[] solution, int[] pass, RealMatrix lower) {
        int columns = solution.length;
        DecompositionSolver factor = new LUDecomposition(lower, 0).getSolver();
        RealMatrix sum = new Array2DRowRealMatrix(columns, columns);
        int from = 0;
        for (int to = 1; to <= white.length; to++) {
            if (to == white.length || pass[to] != pass[from]) {
                RealVector score = divided(white, from, to, solution, lower, factor);
                sum = sum.add(score.outerProduct(score));
                from = to;
            }
        }
        return sum;
    }

    private static RealVector divided(
            double[][] white, int from, int to, double[] solution, RealMatrix lower, DecompositionSolver factor) {
        int columns = solution.length;
        RealMatrix squares = new Array2DRowRealMatrix(columns, columns);
        RealVector score = new ArrayRealVector(columns);
        for (int i = from; i < to; i++) {
            double residual = white[i][columns];
            for (int k = 0; k < columns; k++) {
                residual -= white[i][k] * solution[k];
            }
            for (int k = 0; k < columns; k++) {
                score.addToEntry(k, white[i][k] * residual);
                for (int l = 0; l < columns; l++) {
                    squares.addToEntry(k, l, white[i][k] * white[i][l]);
                }
            }
        }
        RealMatrix half = factor.solve(squares);
        RealMatrix leverage = factor.solve(half.transpose());
        EigenDecompositionSymmetric parts = new EigenDecompositionSymmetric(symmetric(leverage));
        RealVector turned = parts.getV().preMultiply(factor.solve(score));
        for (int k = 0; k < columns; k++) {
            double left = 1 - parts.getEigenvalue(k);
            turned.setEntry(k, turned.getEntry(k) / Math.sqrt(Math.max(left, LEAST_LEFT)));
        }
        return lower.operate(parts.getV().operate(turned));
    }

    private static RealMatrix symmetric(RealMatrix matrix) {
        return matrix.add(matrix.transpose()).scalarMultiply(0.5);
    }
}
