package slowproof.metrology.conformity;

import slowproof.metrology.Check;

/**
 * What is known of a quantity before it is measured: a normal distribution, such as that of a production process
 * (JCGM 106:2012, 6.2 and annex A; clauses from memory).
 *
 * @param mean in the unit of the quantity, finite
 * @param standardDeviation in the unit of the quantity, above 0 and finite
 */
public record NormalPrior(double mean, double standardDeviation) {

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException if the mean is not finite or the deviation not above 0 and finite
     */
    public NormalPrior {
        Check.finite(mean, "mean of the prior");
        Check.positive(standardDeviation, "standard deviation of the prior");
    }

    /**
     * Returns what is known after a measurement: the mean weighted by the inverse variances.
     *
     * @param measured measured value, finite
     * @param standardUncertainty of the measurement, in the unit of the quantity, above 0 and finite
     * @return the distribution of the quantity given prior and measurement
     * @throws IllegalArgumentException if an argument is outside its range
     */
    public NormalPrior after(double measured, double standardUncertainty) {
        Check.finite(measured, "measured value");
        Check.positive(standardUncertainty, "standard uncertainty");
        double together = Math.hypot(standardDeviation, standardUncertainty);
        double weight = (standardDeviation / together) * (standardDeviation / together);
        return new NormalPrior(mean + weight * (measured - mean), standardDeviation * (standardUncertainty / together));
    }
}
