package slowproof.trial.curve;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.EigenDecompositionSymmetric;

/** A mode of the posterior with the curvature there. The Gauss-Newton Hessian in z is I + J'J. */
final class ShapeMode {
    final ShapeModel model;
    final double[] z;
    final double value;
    /** ln of the marginal likelihood by Laplace's approximation, up to a constant common to all modes of a trial. */
    final double logEvidence;
    /** Sum of lambda / (1 + lambda) over the curvatures of the data: the number of parameters that the data fix, in effect. */
    final double effectiveParameters;
    /** Diagonal of the matrix that takes observations to predictions, by rows of the data. */
    final double[] leverage;
    /** Weighted residuals at the mode: prediction less observation. */
    final double[] residuals;

    private final double[][] jacobian;

    ShapeMode(ShapeModel model, double[] z) {
        this.model = model;
        this.z = z;
        this.value = model.value(z);
        residuals = model.residualsCopy();
        int m = model.data.rows;
        int n = model.dimension;
        jacobian = new double[m][n];
        model.jacobian(jacobian);
        double[][] gram = new double[m][m];
        for (int i = 0; i < m; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = 0;
                for (int k = 0; k < n; k++) {
                    sum += jacobian[i][k] * jacobian[j][k];
                }
                gram[i][j] = sum;
                gram[j][i] = sum;
            }
        }
        EigenDecompositionSymmetric eigen = new EigenDecompositionSymmetric(new Array2DRowRealMatrix(gram, false));
        double[] values = eigen.getEigenvalues();
        double logDet = 0;
        double fixed = 0;
        leverage = new double[m];
        for (int i = 0; i < m; i++) {
            double lambda = Math.max(0, values[i]);
            logDet += Math.log1p(lambda);
            fixed += lambda / (1 + lambda);
            for (int j = 0; j < m; j++) {
                double v = eigen.getV().getEntry(j, i);
                leverage[j] += v * v * lambda / (1 + lambda);
            }
        }
        logEvidence = -value - 0.5 * logDet;
        effectiveParameters = fixed;
    }

    /** Returns the Gauss-Newton Hessian in the parameters q of the model. */
    double[][] hessianQ() {
        return model.hessianQ(z, jacobian);
    }
}
