package slowproof.trial.recording;

import org.jspecify.annotations.Nullable;
import slowproof.trial.Check;

/**
 * What counts as a standstill. The reference is at rest while its speed, judged over the dwell time, stays below
 * the lower threshold; it is on the move again once it has left its place faster than the upper one.
 *
 * @param dwellS shortest standstill in s, above zero
 * @param stillBelowMmPerS lower threshold in mm/s, above zero; null to derive it from the reference's own noise
 * @param movingAboveMmPerS upper threshold in mm/s, not below the lower one; null for twice the lower one
 * @param settleS time left out at the start of a dwell in s, not negative; never more than a quarter of the dwell
 */
public record PassSettings(
        double dwellS,
        @Nullable Double stillBelowMmPerS,
        @Nullable Double movingAboveMmPerS,
        double settleS) {
    /** Half a second of rest, a quarter of a second to settle, thresholds from the reference's noise. */
    public static final PassSettings DEFAULT = new PassSettings(0.5, null, null, 0.25);

    /** Checks the parts. */
    public PassSettings {
        Check.positive(dwellS, "dwell", "s");
        Check.notNegative(settleS, "settling time", "s");
        if (stillBelowMmPerS != null) {
            Check.positive(stillBelowMmPerS, "standstill threshold", "mm/s");
        }
        if (movingAboveMmPerS != null && (stillBelowMmPerS == null || !(movingAboveMmPerS >= stillBelowMmPerS))) {
            throw new IllegalArgumentException("the moving threshold goes with a standstill threshold not above it: "
                    + stillBelowMmPerS + " and " + movingAboveMmPerS + " mm/s");
        }
    }
}
