package slowproof.trial;

import org.jspecify.annotations.Nullable;
import slowproof.trial.input.SourcePosition;

/**
 * A cut piece or a taped length: one pass on its own.
 *
 * @param name name, unique in the trial
 * @param material material
 * @param speedMmPerS speed in mm/s, above zero
 * @param referenceMm length by the reference in mm, not zero
 * @param readingMm indication of the sensor in mm
 * @param decimals decimals to which both were recorded in mm, 0 to 9
 * @param dropoutPercent dropout share in percent, 0 to 100, or null
 * @param at where it is written
 */
public record Piece(
        String name,
        String material,
        double speedMmPerS,
        double referenceMm,
        double readingMm,
        int decimals,
        @Nullable Double dropoutPercent,
        SourcePosition at) {
    /** Checks the parts. */
    public Piece {
        Check.positive(speedMmPerS, "speed", "mm/s");
        Check.finite(readingMm, "reading", "mm");
        if (!(Math.abs(referenceMm) > 0) || Double.isInfinite(referenceMm)) {
            throw new IllegalArgumentException("a piece needs a length, found " + referenceMm + " mm");
        }
    }
}
