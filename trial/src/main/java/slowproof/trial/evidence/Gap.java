package slowproof.trial.evidence;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Something asked that evidence does not cover.
 *
 * @param kind what
 * @param asked what was asked, in the unit of its kind, or null
 * @param tried what was tried, in the unit of its kind, or null
 */
public record Gap(
        Kind kind, @Nullable Double asked, @Nullable Double tried) {
    /** What is not covered. The key of each sentence in the message bundles is {@code gap.} and {@link #key()}. */
    public enum Kind {
        /** The surface has another name; {@code tried} is the likeness of the names, a ratio. */
        OTHER_MATERIAL,
        /** The slowest speed asked lies below the slowest tested, mm/s. */
        SLOWER,
        /** The fastest speed asked lies above the fastest tested, mm/s. */
        FASTER,
        /** The smallest acceleration asked lies more than a factor 2 below the smallest tried, mm/s2. */
        GENTLER,
        /** The largest acceleration asked lies more than a factor 2 above the largest tried, mm/s2. */
        HARDER,
        /** The accelerations of the trial are not on record. */
        ACCELERATION_UNKNOWN,
        /** The piece is more than a factor 2 longer than the longest pass, mm. */
        LONGER,
        /** The piece is more than a factor 2 shorter than the shortest pass, mm. */
        SHORTER,
        /** The uncertainty of the reference is not on record. */
        REFERENCE_UNKNOWN,
        /** The reference is coarser than the tolerance: {@code asked} is the tolerance, {@code tried} its expanded uncertainty, mm. */
        REFERENCE_TOO_COARSE;

        /** Returns the word in message bundles, lower_snake_case. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }
}
