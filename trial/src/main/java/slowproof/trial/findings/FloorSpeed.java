package slowproof.trial.findings;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The slowest speed from which on the sensor holds the limit on one material. Speeds in mm/s.
 *
 * @param status what kind of answer this is
 * @param estimate estimated floor, or null
 * @param low lower end of its 95 % interval; for a bracket the fastest tested speed that fails; or null
 * @param high upper end of its 95 % interval; for a bracket the slowest tested speed from which on all hold; or null
 * @param safe slowest tested speed from which on every tested speed conforms, or null
 * @param proven one-sided 95 % upper bound of the floor: the speed that may be promised, or null
 * @param testedDownTo slowest tested speed
 * @param confidencePercent confidence of the interval in percent, or null
 * @param undecided tested speeds that are neither shown to hold nor to fail, ascending
 * @param reasons for each figure that is null, by its name in files, why
 */
public record FloorSpeed(
        Status status,
        @Nullable Double estimate,
        @Nullable Double low,
        @Nullable Double high,
        @Nullable Double safe,
        @Nullable Double proven,
        double testedDownTo,
        @Nullable Double confidencePercent,
        List<Double> undecided,
        Map<String, ReasonCode> reasons) {

    /** Kinds of answer. */
    public enum Status {
        FOUND("found"),
        BRACKET("bracket"),
        HOLDS_THROUGHOUT("holds throughout"),
        HOLDS_IN_A_BAND("holds in a band"),
        DOES_NOT_HOLD("does not hold"),
        UNDECIDED("undecided");

        private final String key;

        Status(String key) {
            this.key = key;
        }

        /** Returns the status as written in files. */
        public String key() {
            return key;
        }

        /**
         * Returns the status as written in files.
         *
         * @throws IllegalArgumentException if there is none of that word
         */
        public static Status ofKey(String key) {
            for (Status status : values()) {
                if (status.key.equals(key)) {
                    return status;
                }
            }
            throw new IllegalArgumentException("no status " + key);
        }
    }

    /** Copies the collections. */
    public FloorSpeed {
        undecided = List.copyOf(undecided);
        reasons = Map.copyOf(reasons);
    }
}
