package slowproof.trial.curve;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.NormalizedGaussianSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;
import slowproof.metrology.Distributions;
import slowproof.trial.spectrum.KnotDistances;

/**
 * Local errors at the tested speeds without any assumption on the shape but straight lines in ln v between them:
 * weighted least squares of the condition means on the hat functions of the tested speeds. With one stroke and
 * acceleration there are as many speeds as means and the answer solves a triangular system, the discrete form
 * of the Volterra equation of the second kind E(V) = eps(V)(S - V^2/a) + integral_0^V eps(u) 2u/a du.
 */
final class PointwiseFit {
    final double[] speedsMmPerS;
    final double[] errors;
    /** Covariance without the reference. */
    final RealMatrix covariance;
    /** Least degrees of freedom of the scatter behind it; 0 when nothing was repeated. */
    final double degreesOfFreedom;

    private PointwiseFit(double[] speeds, double[] errors, RealMatrix covariance, double degreesOfFreedom) {
        this.speedsMmPerS = speeds;
        this.errors = errors;
        this.covariance = covariance;
        this.degreesOfFreedom = degreesOfFreedom;
    }

    static PointwiseFit of(List<ConditionRow> rows, double[] speeds, double[] variances, double degreesOfFreedom) {
        int n = speeds.length;
        double[][] normal = new double[n][n];
        double[] right = new double[n];
        for (int j = 0; j < rows.size(); j++) {
            ConditionRow row = rows.get(j);
            KnotDistances on = row.spectrum().onKnots(speeds);
            double[] d = on.distancesMm();
            d[0] += on.belowMm();
            double weight = 1 / variances[j];
            for (int i = 0; i < n; i++) {
                right[i] += weight * d[i] * row.meanErrorMm();
                for (int k = 0; k < n; k++) {
                    normal[i][k] += weight * d[i] * d[k];
                }
            }
        }
        RealMatrix inverse = new CholeskyDecomposition(new Array2DRowRealMatrix(normal, false), 1e-9, 0)
                .getSolver()
                .getInverse();
        return new PointwiseFit(speeds, inverse.operate(right), inverse, degreesOfFreedom);
    }

    /** Returns the points with Student intervals; {@code referenceU} is common to all. */
    List<CurvePoint> points(double referenceU) {
        double t = degreesOfFreedom > 0 ? Distributions.studentQuantile(0.975, degreesOfFreedom) : Double.NaN;
        List<CurvePoint> points = new ArrayList<>();
        for (int k = 0; k < errors.length; k++) {
            double u = Math.hypot(Math.sqrt(covariance.getEntry(k, k)), referenceU);
            points.add(new CurvePoint(speedsMmPerS[k], errors[k], u, errors[k] - t * u, errors[k] + t * u));
        }
        return List.copyOf(points);
    }

    /** Returns draws of a multivariate t about the errors, each with a draw of the reference's error. */
    CurveDraws draws(double referenceU, long seed, int count) {
        UniformRandomProvider random = RandomSource.XO_SHI_RO_256_PP.create(seed);
        NormalizedGaussianSampler normal = ZigguratSampler.NormalizedGaussian.of(random);
        double[][] lower = new CholeskyDecomposition(covariance, 1e-9, 0).getL().getData();
        int n = errors.length;
        double[][] eps = new double[count][n];
        double[] shift = new double[count];
        double[] z = new double[n];
        for (int i = 0; i < count; i++) {
            shift[i] = referenceU * normal.sample();
            double chi = Distributions.chiSquaredQuantile(random.nextDouble(), Math.max(1, degreesOfFreedom))
                    / Math.max(1, degreesOfFreedom);
            double scale = 1 / Math.sqrt(Math.max(chi, 1e-6));
            for (int k = 0; k < n; k++) {
                z[k] = scale * normal.sample();
                double sum = errors[k] + shift[i];
                for (int l = 0; l <= k; l++) {
                    sum += lower[k][l] * z[l];
                }
                eps[i][k] = sum;
            }
        }
        return new CurveDraws(speedsMmPerS, eps, new double[count], new int[count], new double[count], shift);
    }
}
