package slowproof.trial.curve;

/**
 * Test of the condition means against the curve, with the repeats as pure error (F test; degrees of freedom of
 * the curve by the trace of its smoothing matrix).
 *
 * @param reducedChiSquared mean square of the weighted residuals over its expectation; dimensionless
 * @param degreesOfFreedom degrees of freedom of the residuals, greater than 0
 * @param probability probability of at least this if the curve is right, 0 to 1
 * @param widening factor by which the standard uncertainties were widened, at least 1: the square root of the
 *     reduced chi-squared where the test rejects at 5 %
 */
public record LackOfFit(double reducedChiSquared, double degreesOfFreedom, double probability, double widening) {}
