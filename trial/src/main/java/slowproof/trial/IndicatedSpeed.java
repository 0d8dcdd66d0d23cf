package slowproof.trial;

import org.jspecify.annotations.Nullable;

/**
 * How well the sensor shows speed, on one plateau or over the passes of a condition; ratios are of the reference's speed.
 *
 * @param error error of indication of speed, a ratio, positive when the sensor shows too fast, either way
 * @param standardUncertainty its standard uncertainty from counting, noise of the reference and repeats, without what a certificate states, a ratio; null when nothing tells it
 * @param ripple how the speed that the sensor shows scatters about its mean, what the reference shows of it taken out
 */
public record IndicatedSpeed(
        double error,
        @Nullable Double standardUncertainty,
        @Nullable Ripple ripple) {

    /**
     * Ripple of an indicated speed.
     *
     * @param standardDeviation standard deviation of averages, a ratio, not negative
     * @param countingShare share of its variance that counting alone explains, 0 to 1
     * @param averagingS time over which each average was taken, in s, above zero
     */
    public record Ripple(double standardDeviation, double countingShare, double averagingS) {}
}
