package slowproof.trial.recording;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;

/**
 * A pass found in a recording: the move between two consecutive standstills of the reference. Where the recording has
 * no reference, motion and speeds are those that the sensor itself shows, and there is no error.
 *
 * @param before standstill before the pass
 * @param after standstill after the pass
 * @param joined true when the pass before it ended in the standstill where this one starts
 * @param startS time of the last row at rest before the move, in s
 * @param endS time of the first row at rest after the move, in s
 * @param referenceMm signed travel by the reference, in mm; NaN without a reference
 * @param indicationMm signed travel by the sensor, mean over each settled dwell, in mm; NaN without an indication
 * @param plateauSpeedMmPerS speed of the reference in the plateau, median, in mm/s, above zero
 * @param plateauStartS start of the plateau, in s
 * @param plateauEndS end of the plateau, in s
 * @param plateauShare share of the path travelled in the plateau, a ratio from 0 to 1
 * @param accelerationMmPerS2 mean acceleration up to the plateau, in mm/s2, NaN when the rows are too coarse to tell
 * @param decelerationMmPerS2 mean deceleration from the plateau, in mm/s2, NaN when the rows are too coarse to tell
 * @param topSpeedMmPerS highest speed of the reference, in mm/s
 * @param pathMm length of the path by the reference, to and fro added, in mm
 * @param overshootMm how far the reference ran beyond its end position, in mm, not negative
 * @param dropoutShare share of the moving time without a valid signal, a ratio from 0 to 1; NaN when not recorded
 * @param flags what is doubtful
 */
public record FoundPass(
        Dwell before,
        Dwell after,
        boolean joined,
        double startS,
        double endS,
        double referenceMm,
        double indicationMm,
        double plateauSpeedMmPerS,
        double plateauStartS,
        double plateauEndS,
        double plateauShare,
        double accelerationMmPerS2,
        double decelerationMmPerS2,
        double topSpeedMmPerS,
        double pathMm,
        double overshootMm,
        double dropoutShare,
        Set<PassFlag> flags) {
    /** Copies the flags. */
    public FoundPass {
        flags = flags.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(flags));
    }

    /** Returns the same pass as one that starts in the standstill where the pass before it ended. */
    FoundPass joinedToTheLast() {
        return new FoundPass(
                before,
                after,
                true,
                startS,
                endS,
                referenceMm,
                indicationMm,
                plateauSpeedMmPerS,
                plateauStartS,
                plateauEndS,
                plateauShare,
                accelerationMmPerS2,
                decelerationMmPerS2,
                topSpeedMmPerS,
                pathMm,
                overshootMm,
                dropoutShare,
                flags);
    }

    /** Returns the error of indication in mm, positive when the sensor over-reads, in either direction of travel. */
    public double errorMm() {
        return Math.signum(referenceMm) * (indicationMm - referenceMm);
    }

    /** Returns the error of indication as a ratio of the reference travel. */
    public double relativeError() {
        return errorMm() / Math.abs(referenceMm);
    }
}
