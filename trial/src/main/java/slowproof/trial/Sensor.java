package slowproof.trial;

import org.jspecify.annotations.Nullable;

/**
 * The sensor under trial.
 *
 * @param name what the user calls it
 * @param serial its serial number, empty when unknown
 * @param distancePerCountMm length of one counted edge in mm, above zero; null when unknown
 * @param counterBits width of the counter register in bits, 2 to 64; null when unknown
 * @param readingResolutionMm smallest step of the display in mm, above zero; null to take one count
 */
public record Sensor(
        String name,
        String serial,
        @Nullable Double distancePerCountMm,
        @Nullable Integer counterBits,
        @Nullable Double readingResolutionMm) {
    /** Checks the parts. */
    public Sensor {
        if (distancePerCountMm != null) {
            Check.positive(distancePerCountMm, "distance per count", "mm");
        }
        if (readingResolutionMm != null) {
            Check.positive(readingResolutionMm, "reading resolution", "mm");
        }
        if (counterBits != null && (counterBits < 2 || counterBits > 64)) {
            throw new IllegalArgumentException("counter register must have 2 to 64 bits, found " + counterBits);
        }
    }

    /** Returns the step of a reading in mm: the display's, else one count, else null. */
    public @Nullable Double resolutionMm() {
        return readingResolutionMm != null ? readingResolutionMm : distancePerCountMm;
    }
}
