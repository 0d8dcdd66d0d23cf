package slowproof.trial.clock;

import org.jspecify.annotations.Nullable;

/**
 * How a sensor's log lies in a reference's.
 *
 * @param roughOffsetS offset from comparing speeds, t_ref - t_sensor in s, NaN when none was found
 * @param factor -1 when the sensor counts against the reference; about 1, or a unit's ratio, times that sense
 * @param fit fine estimate, or null
 * @param reason why there is no fine estimate, or null when there is one
 */
public record Alignment(
        double roughOffsetS,
        double factor,
        @Nullable ClockFit fit,
        @Nullable ClockReason reason) {
    static Alignment refused(ClockReason reason) {
        return new Alignment(Double.NaN, Double.NaN, null, reason);
    }

    static Alignment rough(CoarseOffset coarse, ClockReason reason) {
        return new Alignment(coarse.offsetS(), coarse.factor(), null, reason);
    }

    /** Returns true when the logs can be joined: passes, taken from standstill to standstill, need no more than the rough offset. */
    public boolean usable() {
        return !Double.isNaN(roughOffsetS);
    }

    /**
     * Returns the reference's time in s at a time of the sensor's clock in s, by the best estimate there is.
     *
     * @throws IllegalStateException if the logs could not be aligned
     */
    public double referenceTimeS(double sensorTimeS) {
        if (fit != null) {
            return fit.referenceTimeS(sensorTimeS);
        }
        if (!usable()) {
            throw new IllegalStateException("the logs could not be aligned: " + reason);
        }
        return sensorTimeS + roughOffsetS;
    }
}
