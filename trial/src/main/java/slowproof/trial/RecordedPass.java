package slowproof.trial;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.findings.Flag;

/**
 * A pass found in a recording, standstill to standstill.
 *
 * @param recording name of the recording, unique in the trial
 * @param material material
 * @param setup name of the set-up, empty when unnamed
 * @param programmedSpeedMmPerS programmed speed in mm/s, or null
 * @param plateauSpeedMmPerS speed of the plateau by the reference in mm/s, above zero
 * @param accelerationMmPerS2 programmed acceleration in mm/s2, or null
 * @param startS start of the move in s of the recording
 * @param endS end of the move in s of the recording
 * @param referenceMm signed travel by the reference in mm, not zero
 * @param indicationMm signed travel by the sensor in mm
 * @param dropoutPercent dropout share while moving in percent, or null
 * @param speed indicated speed on the plateau, or null
 * @param standstillDriftMm what the sensor gains at rest over the dwells beside the pass, in mm, not negative; 0 when no drift was found
 * @param joined true when the pass before it ended in the standstill where this one starts
 * @param flags what was doubtful
 */
public record RecordedPass(
        String recording,
        String material,
        String setup,
        @Nullable Double programmedSpeedMmPerS,
        double plateauSpeedMmPerS,
        @Nullable Double accelerationMmPerS2,
        double startS,
        double endS,
        double referenceMm,
        double indicationMm,
        @Nullable Double dropoutPercent,
        @Nullable IndicatedSpeed speed,
        double standstillDriftMm,
        boolean joined,
        List<Flag> flags) {
    /** Checks and copies the parts. */
    public RecordedPass {
        Check.positive(plateauSpeedMmPerS, "plateau speed", "mm/s");
        if (!(Math.abs(referenceMm) > 0) || !Double.isFinite(indicationMm)) {
            throw new IllegalArgumentException("a pass needs travel: " + referenceMm + " mm, " + indicationMm + " mm");
        }
        flags = List.copyOf(flags);
    }

    /** Returns the same pass as one of that material and set-up, programmed so; null for what is unknown. */
    public RecordedPass of(
            String ownMaterial, String ownSetup, @Nullable Double speedMmPerS, @Nullable Double rampMmPerS2) {
        return new RecordedPass(
                recording,
                ownMaterial,
                ownSetup,
                speedMmPerS,
                plateauSpeedMmPerS,
                rampMmPerS2,
                startS,
                endS,
                referenceMm,
                indicationMm,
                dropoutPercent,
                speed,
                standstillDriftMm,
                joined,
                flags);
    }
}
