package slowproof.metrology.regression;

import slowproof.metrology.Distributions;

/**
 * Analysis of variance of a regression: what the model explains and what it leaves. Sums of squares have the squared
 * unit of the response times that of the weights.
 *
 * @param explained sum of squares explained by the model, at least 0
 * @param explainedDegreesOfFreedom at least 0, dimensionless
 * @param residual sum of squares left over, at least 0
 * @param residualDegreesOfFreedom at least 0, dimensionless
 */
public record VarianceSplit(
        double explained, int explainedDegreesOfFreedom, double residual, int residualDegreesOfFreedom) {

    /**
     * Share of the sum of squares that the model explains, R squared.
     *
     * @return 0 to 1, dimensionless; NaN when there is nothing to explain
     */
    public double explainedShare() {
        return explained / (explained + residual);
    }

    /**
     * Ratio of the explained to the residual mean square.
     *
     * @return at least 0, dimensionless; infinite for an exact fit; NaN when a mean square does not exist
     */
    public double f() {
        return explained / explainedDegreesOfFreedom / (residual / residualDegreesOfFreedom);
    }

    /**
     * Probability of an F ratio at least this large when the model explains nothing (normal errors).
     *
     * @return 0 to 1, dimensionless
     * @throws IllegalStateException if a mean square does not exist
     */
    public double pValue() {
        if (explainedDegreesOfFreedom == 0 || residualDegreesOfFreedom == 0) {
            throw new IllegalStateException("no F test with " + explainedDegreesOfFreedom + " and "
                    + residualDegreesOfFreedom + " degrees of freedom");
        }
        double ratio = f();
        if (ratio == Double.POSITIVE_INFINITY) {
            return 0;
        }
        // P(F > f) as the lower tail of the reciprocal ratio: no cancellation for large f
        return ratio == 0 ? 1 : Distributions.fCdf(1 / ratio, residualDegreesOfFreedom, explainedDegreesOfFreedom);
    }
}
