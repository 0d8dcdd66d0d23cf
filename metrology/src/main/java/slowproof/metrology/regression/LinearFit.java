package slowproof.metrology.regression;

import java.util.Arrays;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/**
 * A fitted linear model y = X b: coefficients, their covariance, residuals and the quality of the fit.
 *
 * <p>The covariance is (X'WX)^-1 when the uncertainties of the data are known, and s^2 (X'WX)^-1 when they are
 * estimated from the scatter about the fit; {@link #rescaled()} turns the first into the second.
 */
public final class LinearFit {
    private final double[] coefficients;
    private final double[][] unscaledCovariance;
    private final double[] residuals;
    private final double residualSumOfSquares;
    private final int degreesOfFreedom;
    private final boolean scaleKnown;
    private final VarianceSplit aboutMean;
    private final VarianceSplit aboutZero;

    LinearFit(
            double[] coefficients,
            double[][] unscaledCovariance,
            double[] residuals,
            double residualSumOfSquares,
            boolean scaleKnown,
            VarianceSplit aboutMean,
            VarianceSplit aboutZero) {
        this.coefficients = coefficients;
        this.unscaledCovariance = unscaledCovariance;
        this.residuals = residuals;
        this.residualSumOfSquares = residualSumOfSquares;
        this.degreesOfFreedom = residuals.length - coefficients.length;
        this.scaleKnown = scaleKnown;
        this.aboutMean = aboutMean;
        this.aboutZero = aboutZero;
    }

    /**
     * Number of coefficients.
     *
     * @return at least 1
     */
    public int size() {
        return coefficients.length;
    }

    /**
     * One coefficient.
     *
     * @param index of the column, from 0
     * @return in the unit of the response over that of the column
     */
    public double coefficient(int index) {
        return coefficients[index];
    }

    /**
     * All coefficients.
     *
     * @return a copy
     */
    public double[] coefficients() {
        return coefficients.clone();
    }

    /**
     * Covariance of two coefficients.
     *
     * @param i index of one column, from 0
     * @param j index of the other
     * @return in the product of the coefficients' units
     * @throws IllegalStateException if the scatter is to be estimated and no degree of freedom is left
     */
    public double covariance(int i, int j) {
        return unscaledCovariance[i][j] * varianceFactor();
    }

    /**
     * The covariance matrix of the coefficients.
     *
     * @return a copy, symmetric
     * @throws IllegalStateException if the scatter is to be estimated and no degree of freedom is left
     */
    public double[][] covariance() {
        double factor = varianceFactor();
        double[][] result = new double[size()][];
        for (int i = 0; i < size(); i++) {
            result[i] =
                    Arrays.stream(unscaledCovariance[i]).map(c -> c * factor).toArray();
        }
        return result;
    }

    /**
     * Standard uncertainty of a coefficient.
     *
     * @param index of the column, from 0
     * @return at least 0, in the unit of the coefficient
     * @throws IllegalStateException if the scatter is to be estimated and no degree of freedom is left
     */
    public double standardUncertainty(int index) {
        return Math.sqrt(covariance(index, index));
    }

    /**
     * Confidence interval of a coefficient: Student's t when the scatter is estimated, normal when it is known.
     *
     * @param index of the column, from 0
     * @param level two-sided confidence level, above 0 and below 1
     * @return symmetric about the coefficient
     * @throws IllegalStateException if the scatter is to be estimated and no degree of freedom is left
     */
    public Interval interval(int index, double level) {
        return around(coefficients[index], standardUncertainty(index), level);
    }

    /**
     * Value of the fitted model.
     *
     * @param row one entry per column
     * @return in the unit of the response
     */
    public double predict(double... row) {
        return Matrices.dot(row, coefficients);
    }

    /**
     * Standard uncertainty of the fitted model at a point, without the scatter of a new reading.
     *
     * @param row one entry per column
     * @return at least 0, in the unit of the response
     * @throws IllegalStateException if the scatter is to be estimated and no degree of freedom is left
     */
    public double predictionUncertainty(double... row) {
        return Math.sqrt(Math.max(0, Matrices.quadraticForm(row, unscaledCovariance) * varianceFactor()));
    }

    /**
     * Confidence interval of the fitted model at a point.
     *
     * @param level two-sided confidence level, above 0 and below 1
     * @param row one entry per column
     * @return symmetric about the prediction
     * @throws IllegalStateException if the scatter is to be estimated and no degree of freedom is left
     */
    public Interval predictionInterval(double level, double... row) {
        return around(predict(row), predictionUncertainty(row), level);
    }

    /**
     * Observed minus fitted value of one row, unweighted.
     *
     * @param row index, from 0
     * @return in the unit of the response
     */
    public double residual(int row) {
        return residuals[row];
    }

    /**
     * Observed minus fitted values, unweighted.
     *
     * @return a copy, one per row
     */
    public double[] residuals() {
        return residuals.clone();
    }

    /**
     * Weighted sum of squared residuals, r'Wr; chi-square when the uncertainties are known.
     *
     * @return at least 0; dimensionless with known uncertainties, else the squared unit of the response
     */
    public double residualSumOfSquares() {
        return residualSumOfSquares;
    }

    /**
     * Rows minus coefficients.
     *
     * @return at least 0, dimensionless
     */
    public int degreesOfFreedom() {
        return degreesOfFreedom;
    }

    /**
     * Residual sum of squares over degrees of freedom: the variance of a reading of weight 1, or the reduced
     * chi-square when the uncertainties are known.
     *
     * @return at least 0
     * @throws IllegalStateException if no degree of freedom is left
     */
    public double residualVariance() {
        if (degreesOfFreedom == 0) {
            throw new IllegalStateException("as many coefficients as rows: the scatter cannot be estimated");
        }
        return residualSumOfSquares / degreesOfFreedom;
    }

    /**
     * Whether the covariance rests on known uncertainties rather than on the scatter about the fit.
     *
     * @return true for fits with stated uncertainties
     */
    public boolean scaleKnown() {
        return scaleKnown;
    }

    /**
     * The same fit with its covariance multiplied by the reduced chi-square: only the relative sizes of the stated
     * uncertainties are then believed.
     *
     * @return a fit whose scatter is estimated
     */
    public LinearFit rescaled() {
        return new LinearFit(
                coefficients, unscaledCovariance, residuals, residualSumOfSquares, false, aboutMean, aboutZero);
    }

    /**
     * Analysis of variance about the (weighted) mean, for a model with a constant term.
     *
     * @return the split of the sum of squares
     */
    public VarianceSplit aboutMean() {
        return aboutMean;
    }

    /**
     * Analysis of variance about zero, for a model without a constant term.
     *
     * @return the split of the sum of squares
     */
    public VarianceSplit aboutZero() {
        return aboutZero;
    }

    private Interval around(double centre, double uncertainty, double level) {
        double p = (1 + Check.openProbability(level, "confidence")) / 2;
        double k = scaleKnown ? Distributions.normalQuantile(p) : Distributions.studentQuantile(p, degreesOfFreedom);
        return new Interval(centre - k * uncertainty, centre + k * uncertainty);
    }

    private double varianceFactor() {
        return scaleKnown ? 1 : residualVariance();
    }
}
