package slowproof.trial.evidence;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Passes to run for an answer.
 *
 * @param why what they are for
 * @param speedMmPerS speed in mm/s
 * @param accelerationMmPerS2 acceleration in mm/s2; null when none was asked for
 * @param strokeMm length of a pass in mm
 * @param cycles how many cycles, out and back
 */
public record TestStep(
        Why why, double speedMmPerS, @Nullable Double accelerationMmPerS2, double strokeMm, int cycles) {
    /** Time at each standstill to read and to set off again, s; our choice. */
    private static final double DWELL_S = 10;

    /** What a step is for. The key of each sentence in the message bundles is {@code step.} and {@link #key()}. */
    public enum Why {
        /** A speed of a ladder on a surface of which nothing fits. */
        LADDER,
        /** A speed that lies outside the tested ones. */
        BEYOND,
        /** A speed between one that fails and one that holds. */
        BETWEEN,
        /** A speed that is undecided: more passes. */
        REPEAT,
        /** An acceleration that was not tried. */
        ACCELERATION,
        /** A length that was not tried. */
        LENGTH;

        /** Returns the word in message bundles, lower_snake_case. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** Returns the time it takes at the bench in s: way, speeding up and slowing down, and a standstill a pass. */
    public double seconds() {
        double ramps = accelerationMmPerS2 == null ? 0 : speedMmPerS / accelerationMmPerS2;
        return 2 * cycles * (strokeMm / speedMmPerS + ramps + DWELL_S);
    }
}
