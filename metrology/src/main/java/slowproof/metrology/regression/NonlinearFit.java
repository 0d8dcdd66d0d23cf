package slowproof.metrology.regression;

import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/**
 * A fitted curve: parameters, their first-order covariance and the residual scatter. Intervals are approximate: they
 * treat the curve as linear near the solution.
 */
public final class NonlinearFit {
    private final double[] parameters;
    private final double[][] covariance;
    private final double[] residuals;
    private final double residualSumOfSquares;
    private final boolean scaleKnown;
    private final boolean converged;

    NonlinearFit(
            double[] parameters,
            double[][] covariance,
            double[] residuals,
            double residualSumOfSquares,
            boolean scaleKnown,
            boolean converged) {
        this.parameters = parameters;
        this.covariance = covariance;
        this.residuals = residuals;
        this.residualSumOfSquares = residualSumOfSquares;
        this.scaleKnown = scaleKnown;
        this.converged = converged;
    }

    /**
     * One parameter.
     *
     * @param index from 0
     * @return in the parameter's own unit
     */
    public double parameter(int index) {
        return parameters[index];
    }

    /**
     * All parameters.
     *
     * @return a copy
     */
    public double[] parameters() {
        return parameters.clone();
    }

    /**
     * Covariance of two parameters, from the Jacobian at the solution; multiplied by the residual variance unless the
     * uncertainties of the data are known.
     *
     * @param i index of one parameter, from 0
     * @param j index of the other
     * @return in the product of their units
     */
    public double covariance(int i, int j) {
        return covariance[i][j];
    }

    /**
     * The covariance matrix of the parameters.
     *
     * @return a copy, symmetric
     */
    public double[][] covariance() {
        return Matrices.copy(covariance);
    }

    /**
     * Standard uncertainty of a parameter, to first order.
     *
     * @param index from 0
     * @return at least 0, in the parameter's own unit
     */
    public double standardUncertainty(int index) {
        return Math.sqrt(covariance[index][index]);
    }

    /**
     * Approximate confidence interval of a parameter: Student's t when the scatter is estimated, normal when known.
     *
     * @param index from 0
     * @param level two-sided confidence level, above 0 and below 1
     * @return symmetric about the parameter
     */
    public Interval interval(int index, double level) {
        double p = (1 + Check.openProbability(level, "confidence")) / 2;
        double k = scaleKnown ? Distributions.normalQuantile(p) : Distributions.studentQuantile(p, degreesOfFreedom());
        double half = k * standardUncertainty(index);
        return new Interval(parameters[index] - half, parameters[index] + half);
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
     * Weighted sum of squared residuals; chi-square when the uncertainties are known.
     *
     * @return at least 0
     */
    public double residualSumOfSquares() {
        return residualSumOfSquares;
    }

    /**
     * Rows minus parameters.
     *
     * @return at least 1, dimensionless
     */
    public int degreesOfFreedom() {
        return residuals.length - parameters.length;
    }

    /**
     * Residual sum of squares over degrees of freedom.
     *
     * @return at least 0
     */
    public double residualVariance() {
        return residualSumOfSquares / degreesOfFreedom();
    }

    /**
     * Whether the search ended at a minimum: the remaining residuals are orthogonal to the tangents of the curve.
     *
     * @return false when the search stalled; the parameters are then only the best found
     */
    public boolean converged() {
        return converged;
    }
}
