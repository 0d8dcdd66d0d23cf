package slowproof.metrology.uncertainty;

import org.hipparchus.analysis.UnivariateFunction;
import org.hipparchus.analysis.differentiation.DSFactory;
import org.hipparchus.analysis.differentiation.FiniteDifferencesDifferentiator;
import slowproof.metrology.sampling.ModelFunction;

/** Numeric derivatives of a model at the estimates of its inputs. */
final class Derivatives {

    // Seven points an eighth of the standard uncertainty apart: inside the region where the model matters, exact for
    // polynomials of the sixth degree, and far enough apart for rounding not to matter.
    private static final int POINTS = 7;
    private static final double STEP_SHARE = 0.125;
    private static final double LEAST_RELATIVE_STEP = 1e-7;
    private static final double STEP_AT_ZERO = 1e-3;

    private static final DSFactory FIRST_ORDER = new DSFactory(1, 1);

    private Derivatives() {}

    /** Partial derivative with respect to input i. */
    static double first(ModelFunction function, double[] x, int i, double uncertainty) {
        UnivariateFunction along = value -> {
            double[] moved = x.clone();
            moved[i] = value;
            return function.value(moved);
        };
        double step = Math.max(STEP_SHARE * uncertainty, LEAST_RELATIVE_STEP * Math.abs(x[i]));
        double slope = new FiniteDifferencesDifferentiator(POINTS, step > 0 ? step : STEP_AT_ZERO)
                .differentiate(along)
                .value(FIRST_ORDER.variable(0, x[i]))
                .getPartialDerivative(1);
        if (!Double.isFinite(slope)) {
            throw new ArithmeticException("the model has no finite sensitivity to input " + i + " near its estimate");
        }
        return slope;
    }

    /** Second derivative with respect to inputs i and j, times both uncertainties. */
    static double second(ModelFunction f, double[] x, double[] u, int i, int j) {
        return extrapolated(scale -> {
            double sum = i == j
                    ? at(f, x, u, i, scale, j, 0) - 2 * f.value(x.clone()) + at(f, x, u, i, -scale, j, 0)
                    : (at(f, x, u, i, scale, j, scale)
                                    - at(f, x, u, i, scale, j, -scale)
                                    - at(f, x, u, i, -scale, j, scale)
                                    + at(f, x, u, i, -scale, j, -scale))
                            / 4;
            return sum / (scale * scale);
        });
    }

    /** First derivative in i of the second derivative in j, times u_i and the square of u_j. */
    static double third(ModelFunction f, double[] x, double[] u, int i, int j) {
        return extrapolated(scale -> {
            double sum = i == j
                    ? at(f, x, u, i, 2 * scale, j, 0)
                            - 2 * at(f, x, u, i, scale, j, 0)
                            + 2 * at(f, x, u, i, -scale, j, 0)
                            - at(f, x, u, i, -2 * scale, j, 0)
                    : at(f, x, u, i, scale, j, scale)
                            - 2 * at(f, x, u, i, scale, j, 0)
                            + at(f, x, u, i, scale, j, -scale)
                            - at(f, x, u, i, -scale, j, scale)
                            + 2 * at(f, x, u, i, -scale, j, 0)
                            - at(f, x, u, i, -scale, j, -scale);
            return sum / (2 * scale * scale * scale);
        });
    }

    /** The differences have even powers of the scale in their error; two scales remove the first of them. */
    private static double extrapolated(UnivariateFunction differences) {
        return (4 * differences.value(0.25) - differences.value(0.5)) / 3;
    }

    private static double at(ModelFunction f, double[] x, double[] u, int i, double byI, int j, double byJ) {
        double[] moved = x.clone();
        moved[i] += byI * u[i];
        moved[j] += byJ * u[j];
        return f.value(moved);
    }
}
