package slowproof.trial.curve;

/**
 * The error curve at one speed. Relative errors are ratios.
 *
 * @param speedMmPerS speed in mm/s
 * @param error relative error
 * @param standardUncertainty its standard uncertainty, the reference's included
 * @param low lower end of the pointwise 95 % band
 * @param high upper end
 */
public record CurvePoint(double speedMmPerS, double error, double standardUncertainty, double low, double high) {}
