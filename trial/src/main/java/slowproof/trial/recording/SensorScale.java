package slowproof.trial.recording;

import org.jspecify.annotations.Nullable;
import slowproof.trial.Check;
import slowproof.trial.counts.CounterRegister;
import slowproof.trial.counts.Quadrature;

/**
 * How counts become mm.
 *
 * @param distancePerCountMm distance per count in mm, above zero; null when the log holds readings in mm
 * @param register counter register that wraps, or null when the count in the log never wraps
 * @param topSpeedMmPerS highest speed that occurs, in mm/s, above zero; null to take it from the reference
 * @param evaluation edges counted when the log holds channel levels
 */
public record SensorScale(
        @Nullable Double distancePerCountMm,
        @Nullable CounterRegister register,
        @Nullable Double topSpeedMmPerS,
        Quadrature.Evaluation evaluation) {
    /** Checks the parts. */
    public SensorScale {
        if (distancePerCountMm != null) {
            Check.positive(distancePerCountMm, "distance per count", "mm");
        }
        if (topSpeedMmPerS != null) {
            Check.positive(topSpeedMmPerS, "top speed", "mm/s");
        }
    }

    /** Returns the scale of a counter that never wraps. */
    public static SensorScale ofCounts(double distancePerCountMm) {
        return new SensorScale(distancePerCountMm, null, null, Quadrature.Evaluation.X4);
    }

    /** Returns the scale of a log that holds readings in mm. */
    public static SensorScale none() {
        return new SensorScale(null, null, null, Quadrature.Evaluation.X4);
    }
}
