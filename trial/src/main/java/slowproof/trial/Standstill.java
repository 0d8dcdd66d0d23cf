package slowproof.trial;

import java.time.LocalDateTime;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.trial.input.SourcePosition;

/**
 * One row of typed readings, taken with sensor and reference at rest. Dropout share, speeds and track belong to
 * the move that led to it.
 *
 * @param referenceMm position of the reference in mm
 * @param readingMm reading of the sensor in mm
 * @param decimals decimals to which both were recorded in mm, 0 to 9
 * @param dropoutPercent dropout share in percent, 0 to 100, or null
 * @param time when it was read, as written and without a zone, or null
 * @param indicatedSpeedMmPerS speed shown by the sensor in mm/s, or null
 * @param referenceSpeedMmPerS speed by the reference in mm/s, or null
 * @param track name of the strip of material that passed, empty when unnamed
 * @param at where it is written
 */
public record Standstill(
        double referenceMm,
        double readingMm,
        int decimals,
        @Nullable Double dropoutPercent,
        @Nullable LocalDateTime time,
        @Nullable Double indicatedSpeedMmPerS,
        @Nullable Double referenceSpeedMmPerS,
        String track,
        SourcePosition at) {
    /** Checks the parts. */
    public Standstill {
        Check.finite(referenceMm, "reference", "mm");
        Check.finite(readingMm, "reading", "mm");
        Objects.requireNonNull(at, "at");
        if (decimals < 0 || decimals > 9) {
            throw new IllegalArgumentException("recorded decimals must be 0 to 9, found " + decimals);
        }
    }
}
