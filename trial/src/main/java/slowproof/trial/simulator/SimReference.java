package slowproof.trial.simulator;

/**
 * The simulated reference.
 *
 * @param readingNoiseMm standard deviation of each reading, mm, at least 0
 * @param scaleUncertaintyRatio standard deviation from which one scale error, common to the whole trial, is drawn, ratio, at least 0
 * @param resolutionMm step to which its readings are rounded, mm, positive
 */
public record SimReference(double readingNoiseMm, double scaleUncertaintyRatio, double resolutionMm) {
    /** Checks the parts. */
    public SimReference {
        Check.notNegative(readingNoiseMm, "noise of the reference");
        Check.notNegative(scaleUncertaintyRatio, "scale uncertainty of the reference");
        Check.positive(resolutionMm, "resolution of the reference");
    }
}
