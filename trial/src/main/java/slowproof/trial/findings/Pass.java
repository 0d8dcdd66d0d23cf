package slowproof.trial.findings;

import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The move between two consecutive standstills, or one piece.
 *
 * @param id series and number, such as "felt-63/4"
 * @param series name of the series, of the recording, or "pieces"
 * @param number number in the series from 1
 * @param startsAtPreviousEnd true when it shares its first reading with the pass before it
 * @param material material
 * @param setup name of the set-up, empty when unnamed
 * @param speedMmPerS programmed speed in mm/s; the group's plateau speed where none was programmed
 * @param plateauSpeedMmPerS measured plateau speed in mm/s, or null
 * @param accelerationMmPerS2 programmed acceleration in mm/s2, or null
 * @param referenceMm signed travel by the reference in mm, corrected for its temperature, not zero
 * @param indicationMm signed travel by the sensor in mm
 * @param errorMm error of indication in mm: sgn(reference) (indication - reference), so positive is over-reading
 *     either way
 * @param decimals decimals to which the readings were recorded in mm, 0 to 9
 * @param stepMm smallest step in mm in which its readings can differ: of the recorded decimals, the display or the
 *     count, whichever is coarsest; 0 when none is known
 * @param dropoutPercent dropout share in percent, or null
 * @param speedError relative error of the indicated speed, a ratio, or null
 * @param speedRipple ripple of the indicated speed over the speed, a ratio, or null
 * @param time when its end was read, or null
 * @param track name of the strip of material, empty when unnamed
 * @param flags what was doubtful
 * @param excludedBecause reason why a person left it out, or null
 */
public record Pass(
        String id,
        String series,
        int number,
        boolean startsAtPreviousEnd,
        String material,
        String setup,
        double speedMmPerS,
        @Nullable Double plateauSpeedMmPerS,
        @Nullable Double accelerationMmPerS2,
        double referenceMm,
        double indicationMm,
        double errorMm,
        int decimals,
        double stepMm,
        @Nullable Double dropoutPercent,
        @Nullable Double speedError,
        @Nullable Double speedRipple,
        @Nullable LocalDateTime time,
        String track,
        Set<Flag> flags,
        @Nullable String excludedBecause) {
    /** Copies the flags. */
    public Pass {
        flags = Flags.copyOf(flags);
    }

    /** Returns the length in mm, above zero. */
    public double lengthMm() {
        return Math.abs(referenceMm);
    }

    /** Returns the relative error of indication, a ratio. */
    public double error() {
        return errorMm / lengthMm();
    }

    /** Returns the direction, never {@link Direction#BOTH}. */
    public Direction direction() {
        return Direction.of(referenceMm);
    }

    /** Returns true unless a person left it out. */
    public boolean included() {
        return excludedBecause == null;
    }

    BigDecimal exactErrorMm() {
        return BigDecimal.valueOf(errorMm);
    }

    BigDecimal exactLengthMm() {
        return BigDecimal.valueOf(lengthMm());
    }

    Pass withFlag(Flag flag) {
        return new Pass(
                id,
                series,
                number,
                startsAtPreviousEnd,
                material,
                setup,
                speedMmPerS,
                plateauSpeedMmPerS,
                accelerationMmPerS2,
                referenceMm,
                indicationMm,
                errorMm,
                decimals,
                stepMm,
                dropoutPercent,
                speedError,
                speedRipple,
                time,
                track,
                Flags.with(flags, flag),
                excludedBecause);
    }
}
