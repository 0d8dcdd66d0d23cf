package slowproof.trial.counts;

import slowproof.trial.Check;

/**
 * What counting demands of the electronics.
 *
 * <p>With x4 evaluation a channel of distance per count q runs at f = v / (4 q); with x2 and x1 at v / (2 q)
 * and v / q.
 */
public final class CountingRate {
    private CountingRate() {}

    /**
     * Returns the frequency of one channel in Hz.
     *
     * @param speedMmPerS speed in mm/s, not negative
     * @param distancePerCountMm distance per count in mm, above zero
     * @param evaluation which edges are counted
     */
    public static double channelHz(double speedMmPerS, double distancePerCountMm, Quadrature.Evaluation evaluation) {
        Check.notNegative(speedMmPerS, "speed", "mm/s");
        Check.positive(distancePerCountMm, "distance per count", "mm");
        return speedMmPerS / (evaluation.countsPerPeriod() * distancePerCountMm);
    }

    /**
     * Returns the edges of both channels per sample. Levels can be decoded only while this stays below one;
     * above it edges are missed, and from four on nothing need show.
     *
     * @param speedMmPerS top speed in mm/s, not negative
     * @param distancePerCountMm distance per count in mm, above zero
     * @param evaluation which edges are counted
     * @param sampleS longest time between two samples in s, above zero
     */
    public static double edgesPerSample(
            double speedMmPerS, double distancePerCountMm, Quadrature.Evaluation evaluation, double sampleS) {
        return 4 * channelHz(speedMmPerS, distancePerCountMm, evaluation) * Check.positive(sampleS, "interval", "s");
    }
}
