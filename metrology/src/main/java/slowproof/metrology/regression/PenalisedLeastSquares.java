package slowproof.metrology.regression;

import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.univariate.BrentOptimizer;
import org.hipparchus.optim.univariate.SearchInterval;
import org.hipparchus.optim.univariate.UnivariateObjectiveFunction;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;

/**
 * Least squares with a quadratic penalty: the minimum of |y - X b|^2 + weight |D b|^2, each response in units of its
 * scatter. The weight is given or chosen from the data by restricted maximum likelihood or cross-validation (S. Wood,
 * Generalized Additive Models (2017), chapters 4 and 6, from memory).
 *
 * <p>The design may have more columns than rows as long as the penalty settles what the data leave open.
 */
public final class PenalisedLeastSquares {
    // Search range of the natural logarithm of the weight about the value at which data and penalty balance.
    private static final double BELOW = 18;
    private static final double ABOVE = 22;
    private static final int GRID = 41;

    private PenalisedLeastSquares() {}

    /**
     * Fits responses of equal, unknown scatter and chooses the weight.
     *
     * @param rows the design, one row per response; not modified
     * @param y responses, more than the penalty leaves free; not modified
     * @param penalty rows of D, linearly independent, fewer than columns or as many; not modified
     * @param choice how the weight is chosen
     * @return the fit, its scatter estimated
     * @throws IllegalArgumentException if lengths differ, a number is not finite, or data and penalty together do not
     *     determine the coefficients
     */
    public static PenalisedFit fit(double[][] rows, double[] y, double[][] penalty, SmoothingChoice choice) {
        return chosen(new PenalisedProblem(rows, y, penalty, false), choice);
    }

    /**
     * Fits independent responses of known standard uncertainty and chooses the weight.
     *
     * @param rows the design, one row per response; not modified
     * @param y responses; not modified
     * @param standardUncertainties of the responses, above 0; not modified
     * @param penalty rows of D, linearly independent, fewer than columns or as many; not modified
     * @param choice how the weight is chosen
     * @return the fit, its covariance following from the stated uncertainties
     * @throws IllegalArgumentException if lengths differ, a number is not finite, an uncertainty is not above 0, or data
     *     and penalty together do not determine the coefficients
     */
    public static PenalisedFit known(
            double[][] rows, double[] y, double[] standardUncertainties, double[][] penalty, SmoothingChoice choice) {
        return chosen(known(rows, y, standardUncertainties, penalty), choice);
    }

    /**
     * Fits responses of equal, unknown scatter with a given weight.
     *
     * @param rows the design, one row per response; not modified
     * @param y responses, more than the penalty leaves free; not modified
     * @param penalty rows of D, linearly independent, fewer than columns or as many; not modified
     * @param weight above 0, finite
     * @return the fit, its scatter estimated
     * @throws IllegalArgumentException if lengths differ, a number is not finite, the weight is not above 0, or data and
     *     penalty together do not determine the coefficients
     */
    public static PenalisedFit withWeight(double[][] rows, double[] y, double[][] penalty, double weight) {
        Check.positive(weight, "weight of the penalty");
        return new PenalisedProblem(rows, y, penalty, false)
                .at(FastMath.log(weight))
                .fit(0);
    }

    private static PenalisedProblem known(double[][] rows, double[] y, double[] uncertainties, double[][] penalty) {
        Matrices.sameLength(y.length, uncertainties.length, "standard uncertainties");
        Matrices.sameLength(y.length, rows.length, "rows");
        Matrices.positive(uncertainties, "standard uncertainty");
        double[][] white = Matrices.copy(rows);
        double[] whiteY = y.clone();
        for (int i = 0; i < y.length; i++) {
            whiteY[i] /= uncertainties[i];
            for (int j = 0; j < white[i].length; j++) {
                white[i][j] /= uncertainties[i];
            }
        }
        return new PenalisedProblem(white, whiteY, penalty, true);
    }

    private static PenalisedFit chosen(PenalisedProblem problem, SmoothingChoice choice) {
        double centre = problem.balance();
        double low = centre - BELOW;
        double step = (BELOW + ABOVE) / (GRID - 1);
        int best = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int k = 0; k < GRID; k++) {
            double value = problem.at(low + k * step).criterion(choice);
            if (value < least) {
                least = value;
                best = k;
            }
        }
        double left = low + Math.max(0, best - 1) * step;
        double right = low + Math.min(GRID - 1, best + 1) * step;
        double logWeight = new BrentOptimizer(1e-8, 1e-8)
                .optimize(
                        new MaxEval(200),
                        GoalType.MINIMIZE,
                        new UnivariateObjectiveFunction(rho -> problem.at(rho).criterion(choice)),
                        new SearchInterval(left, right))
                .getPoint();
        return problem.at(logWeight).fit(choice == SmoothingChoice.REML ? problem.logWeightVariance(logWeight) : 0);
    }
}
