package slowproof.trial.forecast;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Answers to the inverse questions, for the coverage and confidence of the line.
 *
 * @param toleranceMm tolerance, plus or minus mm, that can be promised as things are
 * @param slowestCreepMmPerS slowest creep speed that holds the tolerance, or null
 * @param creepReason why it is null
 * @param smallestAccelerationMmPerS2 smallest acceleration of all ramps that holds it, or null
 * @param accelerationReason why it is null
 * @param mostStops most stops per piece that hold it, the one at the cut included, or null
 * @param stopsReason why it is null
 * @param longestStandstillS longest standstill per piece that holds it, or null
 * @param standstillReason why it is null
 */
public record Promises(
        double toleranceMm,
        @Nullable Double slowestCreepMmPerS,
        @Nullable Reason creepReason,
        @Nullable Double smallestAccelerationMmPerS2,
        @Nullable Reason accelerationReason,
        @Nullable Integer mostStops,
        @Nullable Reason stopsReason,
        @Nullable Double longestStandstillS,
        @Nullable Reason standstillReason) {
    /** Why there is no answer. */
    public enum Reason {
        /** No value helps. */
        NO_VALUE_HELPS,
        /** The line has no tolerance. */
        NO_TOLERANCE,
        /** The cycle has no such part. */
        NOT_IN_CYCLE,
        /** The line is a log, which cannot be changed. */
        LOGGED,
        /** No drift at standstill is stated. */
        NO_DRIFT_STATED,
        /** Any value holds as far as was tried. */
        ANY_VALUE_HOLDS,
        /** Nobody asked. */
        NOT_ASKED;

        /** Returns the reason as key of the message bundles, lower_snake_case. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** Returns a tolerance alone, the other questions unanswered for one reason. */
    static Promises ofTolerance(double toleranceMm, Reason reason) {
        return new Promises(toleranceMm, null, reason, null, reason, null, reason, null, reason);
    }
}
