package slowproof.trial;

import org.jspecify.annotations.Nullable;

/**
 * How the bench was set up: inputs of the uncertainty budget and notes. Everything may be absent.
 *
 * @param name short name of the set-up, empty when unnamed
 * @param firmware firmware of the sensor as text, empty when unknown
 * @param workingDistanceMm distance from sensor to surface in mm, or null
 * @param misalignmentDegrees largest angle between sensor axis and motion in degrees, not negative, or null
 * @param abbeOffsetMm distance between sensor and reference line in mm, or null
 * @param abbeAngleDegrees largest change of angle over the stroke in degrees, not negative, or null
 * @param temperatureMeanC mean temperature of the reference in degrees Celsius, or null
 * @param temperatureHalfWidthC half width of its variation in kelvin, not negative, or null
 * @param expansionPpmPerK expansion coefficient of the reference in 1e-6 per kelvin, or null
 * @param latencyS delay of the reading in s, or null; without effect at standstill
 * @param parameters settings of the sensor in words, empty when unknown
 * @param window state of its window in words, empty when unknown
 */
public record Setup(
        String name,
        String firmware,
        @Nullable Double workingDistanceMm,
        @Nullable Double misalignmentDegrees,
        @Nullable Double abbeOffsetMm,
        @Nullable Double abbeAngleDegrees,
        @Nullable Double temperatureMeanC,
        @Nullable Double temperatureHalfWidthC,
        @Nullable Double expansionPpmPerK,
        @Nullable Double latencyS,
        String parameters,
        String window) {
    /** A set-up of which nothing is noted. */
    public static final Setup NOTHING_NOTED = new Setup("", "", null, null, null, null, null, null, null, null);

    /** Returns a set-up of whose parameters and window nothing is noted. */
    public Setup(
            String name,
            String firmware,
            @Nullable Double workingDistanceMm,
            @Nullable Double misalignmentDegrees,
            @Nullable Double abbeOffsetMm,
            @Nullable Double abbeAngleDegrees,
            @Nullable Double temperatureMeanC,
            @Nullable Double temperatureHalfWidthC,
            @Nullable Double expansionPpmPerK,
            @Nullable Double latencyS) {
        this(
                name,
                firmware,
                workingDistanceMm,
                misalignmentDegrees,
                abbeOffsetMm,
                abbeAngleDegrees,
                temperatureMeanC,
                temperatureHalfWidthC,
                expansionPpmPerK,
                latencyS,
                "",
                "");
    }

    /** Checks the parts. */
    public Setup {
        if (misalignmentDegrees != null) {
            Check.notNegative(misalignmentDegrees, "misalignment", "degrees");
        }
        if (abbeAngleDegrees != null) {
            Check.notNegative(abbeAngleDegrees, "change of angle", "degrees");
        }
        if (temperatureHalfWidthC != null) {
            Check.notNegative(temperatureHalfWidthC, "half width of the temperature", "K");
        }
    }

    /** Returns true when temperature and expansion are both known. */
    public boolean hasTemperature() {
        return temperatureMeanC != null && expansionPpmPerK != null;
    }

    /**
     * Returns the factor that corrects a reference length for its temperature: 1 + alpha (t - 20 degrees C),
     * 20 degrees C being the reference temperature of ISO 1:2022; 1 when temperature or expansion is unknown.
     */
    public double temperatureFactor() {
        if (temperatureMeanC == null || expansionPpmPerK == null) {
            return 1;
        }
        return 1 + expansionPpmPerK * 1e-6 * (temperatureMeanC - 20);
    }
}
