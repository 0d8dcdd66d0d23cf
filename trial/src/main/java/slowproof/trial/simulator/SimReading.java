package slowproof.trial.simulator;

import java.time.Instant;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * One simulated standstill, as a person would write it down: cumulative, one row per standstill. The first row of
 * a series is its start.
 *
 * @param series name of the series
 * @param material name of the material
 * @param speedMmPerS programmed speed of the move that led here (of the first move in the start row), mm/s
 * @param accelerationMmPerS2 acceleration of the move, mm/s2
 * @param referenceMm the reference's position, mm, rounded to its resolution
 * @param readingMm the sensor's reading, mm, 0 at the start row
 * @param dropoutPct share of the move's time without valid signal, %; NaN in the start row
 * @param track name of the strip of material that passed, counted from 1; empty when there is only one
 * @param time when it was read; null when the plan has no start time
 */
public record SimReading(
        String series,
        String material,
        double speedMmPerS,
        double accelerationMmPerS2,
        double referenceMm,
        double readingMm,
        double dropoutPct,
        String track,
        @Nullable Instant time) {
    /** Checks the parts. */
    public SimReading {
        Objects.requireNonNull(series, "series");
        Objects.requireNonNull(material, "material");
        Objects.requireNonNull(track, "track");
    }
}
