package slowproof.trial.findings;

import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import slowproof.trial.IndicatedSpeed;

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
 * @param speed indicated speed, or null
 * @param standstillDriftMm what the sensor gains at rest over the dwells beside the pass, in mm, not negative; 0 when no drift was found
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
        @Nullable IndicatedSpeed speed,
        double standstillDriftMm,
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

    /** Returns why figures of its speed are not known, where they are not. */
    public ReasonCode whyNoSpeed() {
        return plateauSpeedMmPerS == null ? ReasonCode.NOT_RECORDED : ReasonCode.SHORT_PLATEAU;
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
                speed,
                standstillDriftMm,
                time,
                track,
                Flags.with(flags, flag),
                excludedBecause);
    }
}
