package slowproof.metrology.regression;

import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/**
 * A penalised fit with its posterior covariance: the penalty is read as a prior, so the band contains the bias that
 * smoothing brings, on average over the curve. At edges and knees it may be too narrow.
 */
public final class PenalisedFit {
    private final double[] coefficients;
    private final double[][] covariance;
    private final double[][] widenedCovariance;
    private final double weight;
    private final double effectiveParameters;
    private final double residualVariance;
    private final double degreesOfFreedom;

    PenalisedFit(
            double[] coefficients,
            double[][] covariance,
            double[][] widenedCovariance,
            double weight,
            double effectiveParameters,
            double residualVariance,
            double degreesOfFreedom) {
        this.coefficients = coefficients;
        this.covariance = covariance;
        this.widenedCovariance = widenedCovariance;
        this.weight = weight;
        this.effectiveParameters = effectiveParameters;
        this.residualVariance = residualVariance;
        this.degreesOfFreedom = degreesOfFreedom;
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
     * Posterior covariance at the chosen weight.
     *
     * @return a copy, symmetric
     */
    public double[][] covariance() {
        return Matrices.copy(covariance);
    }

    /**
     * Posterior covariance with the uncertainty of the chosen weight added to first order; the same as {@link
     * #covariance} when the weight was given or chosen by cross-validation.
     *
     * @return a copy, symmetric
     */
    public double[][] widenedCovariance() {
        return Matrices.copy(widenedCovariance);
    }

    /**
     * Weight of the penalty.
     *
     * @return above 0
     */
    public double weight() {
        return weight;
    }

    /**
     * Number of parameters that the fit spends in effect, the trace of the influence matrix.
     *
     * @return at least the number of coefficients left free by the penalty, at most their number
     */
    public double effectiveParameters() {
        return effectiveParameters;
    }

    /**
     * Variance of a response about the curve; 1 when the uncertainties are known.
     *
     * @return at least 0
     */
    public double residualVariance() {
        return residualVariance;
    }

    /**
     * Responses less effective parameters.
     *
     * @return infinite when the uncertainties are known
     */
    public double degreesOfFreedom() {
        return degreesOfFreedom;
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
     * Posterior standard deviation of the fitted model, the uncertainty of the weight included.
     *
     * @param row one entry per column
     * @return at least 0, in the unit of the response
     */
    public double predictionUncertainty(double... row) {
        return Math.sqrt(Math.max(0, Matrices.quadraticForm(row, widenedCovariance)));
    }

    /**
     * Pointwise posterior interval of the fitted model.
     *
     * @param level probability, above 0 and below 1
     * @param row one entry per column
     * @return symmetric about the prediction
     */
    public Interval predictionInterval(double level, double... row) {
        double p = (1 + Check.openProbability(level, "probability")) / 2;
        double half = Distributions.studentQuantile(p, degreesOfFreedom) * predictionUncertainty(row);
        double centre = predict(row);
        return new Interval(centre - half, centre + half);
    }
}
