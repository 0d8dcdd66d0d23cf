package slowproof.metrology.regression;

import java.util.Optional;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/**
 * A fitted straight line y = intercept + slope x with the covariance of its two coefficients.
 *
 * @param intercept in the unit of y
 * @param slope in the unit of y over that of x
 * @param interceptVariance squared standard uncertainty of the intercept, at least 0
 * @param slopeVariance squared standard uncertainty of the slope, at least 0
 * @param covariance of intercept and slope
 * @param chiSquare weighted sum of squared residuals, at least 0, dimensionless
 * @param degreesOfFreedom number of points less two, at least 0, dimensionless
 * @param scaleKnown true when the variances rest on stated uncertainties, false when on the scatter about the line
 */
public record StraightLine(
        double intercept,
        double slope,
        double interceptVariance,
        double slopeVariance,
        double covariance,
        double chiSquare,
        int degreesOfFreedom,
        boolean scaleKnown) {

    /**
     * The line of a linear fit whose design rows are (1, x).
     *
     * @param fit a fit with two coefficients
     * @return the same line
     * @throws IllegalArgumentException if the fit has not two coefficients
     * @throws IllegalStateException if its scatter is to be estimated and no degree of freedom is left
     */
    public static StraightLine of(LinearFit fit) {
        Matrices.sameLength(2, fit.size(), "coefficients");
        return new StraightLine(
                fit.coefficient(0),
                fit.coefficient(1),
                fit.covariance(0, 0),
                fit.covariance(1, 1),
                fit.covariance(0, 1),
                fit.residualSumOfSquares(),
                fit.degreesOfFreedom(),
                fit.scaleKnown());
    }

    /**
     * Least-squares line through points of equal, unknown scatter in y and none in x.
     *
     * @param x at least two distinct values, any unit; not modified
     * @param y one per x; not modified
     * @return the line, its scatter estimated
     * @throws IllegalArgumentException if lengths differ, a number is not finite, or the x are all alike
     * @throws IllegalStateException if there are only two points
     */
    public static StraightLine ordinary(double[] x, double[] y) {
        return of(LeastSquares.polynomial(x, y, 1));
    }

    /**
     * Weighted line through points of known standard uncertainty in y and none in x (ISO/TS 28037:2010, clause 6, from
     * memory).
     *
     * @param x at least two distinct values, any unit; not modified
     * @param y one per x; not modified
     * @param standardUncertainties of the y, above 0; not modified
     * @return the line, its covariance following from the stated uncertainties
     * @throws IllegalArgumentException if lengths differ, a number is not finite, an uncertainty is not above 0, or the
     *     x are all alike
     */
    public static StraightLine known(double[] x, double[] y, double[] standardUncertainties) {
        double[][] rows = new double[x.length][];
        for (int i = 0; i < x.length; i++) {
            rows[i] = new double[] {1, x[i]};
        }
        return of(LeastSquares.known(rows, y, standardUncertainties));
    }

    /**
     * The same line with its covariance multiplied by the reduced chi-square: only the relative sizes of the stated
     * uncertainties are then believed.
     *
     * @return a line whose scatter is estimated
     * @throws IllegalStateException if no degree of freedom is left
     */
    public StraightLine rescaled() {
        if (!scaleKnown) {
            return this;
        }
        if (degreesOfFreedom == 0) {
            throw new IllegalStateException("two points leave no scatter to estimate");
        }
        double factor = chiSquare / degreesOfFreedom;
        return new StraightLine(
                intercept,
                slope,
                interceptVariance * factor,
                slopeVariance * factor,
                covariance * factor,
                chiSquare,
                degreesOfFreedom,
                false);
    }

    /**
     * The line's value.
     *
     * @param x in the unit of x
     * @return in the unit of y
     */
    public double at(double x) {
        return intercept + slope * x;
    }

    /**
     * Standard uncertainty of the line's value, without the scatter of a new reading.
     *
     * @param x in the unit of x
     * @return at least 0, in the unit of y
     */
    public double standardUncertaintyAt(double x) {
        return Math.sqrt(Math.max(0, varianceAt(x)));
    }

    /**
     * The x at which the line takes a value, with its standard uncertainty to first order.
     *
     * @param y observed value, in the unit of y
     * @param yStandardUncertainty of that value, independent of the line, at least 0
     * @return the estimate
     * @throws IllegalArgumentException if the uncertainty is negative or a number is not finite
     * @throws IllegalStateException if the slope is 0
     */
    public Crossing inverse(double y, double yStandardUncertainty) {
        Check.finite(y, "observed value");
        Check.notNegative(yStandardUncertainty, "standard uncertainty");
        if (slope == 0) {
            throw new IllegalStateException("a level line takes no value at one place only");
        }
        double x = (y - intercept) / slope;
        double variance = yStandardUncertainty * yStandardUncertainty + varianceAt(x);
        return new Crossing(x, Math.sqrt(Math.max(0, variance)) / Math.abs(slope));
    }

    /**
     * Confidence set of the x at which the line takes a value, by Fieller's theorem (E. Fieller, J. R. Stat. Soc. B 16
     * (1954) 175, from memory): exact for normal errors, unlike {@link #inverse}.
     *
     * @param y observed value, in the unit of y
     * @param yStandardUncertainty of that value, independent of the line, at least 0
     * @param level two-sided confidence level, above 0 and below 1
     * @return the interval, or empty when the slope is not different from 0 at that level: the set is then unbounded
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public Optional<Interval> inverseInterval(double y, double yStandardUncertainty, double level) {
        Check.finite(y, "observed value");
        Check.notNegative(yStandardUncertainty, "standard uncertainty");
        double p = (1 + Check.openProbability(level, "confidence")) / 2;
        double k = scaleKnown ? Distributions.normalQuantile(p) : Distributions.studentQuantile(p, degreesOfFreedom);
        return fieller(y, yStandardUncertainty, k);
    }

    /**
     * An estimated abscissa.
     *
     * @param x in the unit of x
     * @param standardUncertainty at least 0, in the unit of x
     */
    public record Crossing(double x, double standardUncertainty) {}

    Optional<Interval> fieller(double y, double yStandardUncertainty, double k) {
        // (y - a - b x)^2 <= k^2 (u^2 + var a + 2 x cov + x^2 var b), a quadratic inequality in x
        double k2 = k * k;
        double d = y - intercept;
        double square = slope * slope - k2 * slopeVariance;
        double half = d * slope + k2 * covariance;
        double rest = d * d - k2 * (yStandardUncertainty * yStandardUncertainty + interceptVariance);
        if (!(square > 0)) {
            return Optional.empty();
        }
        double root = Math.sqrt(Math.max(0, half * half - square * rest));
        return Optional.of(new Interval((half - root) / square, (half + root) / square));
    }

    private double varianceAt(double x) {
        return interceptVariance + x * (2 * covariance + x * slopeVariance);
    }
}
