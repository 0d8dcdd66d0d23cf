package slowproof.trial.curve;

import java.util.Objects;
import slowproof.trial.Check;

/**
 * What the fit needs beside the passes.
 *
 * @param material what the notes speak of: the material
 * @param resolutionMm step of the readings in mm, at least 0; a reading is taken as uniform within it
 * @param stepMm smallest step in mm in which the readings can differ, as recorded or as shown, at least 0: no test
 *     rejects on differences that it explains
 * @param referenceMm fixed part of the reference's standard uncertainty in mm, at least 0
 * @param referenceRatio part of the reference's standard uncertainty that grows with length, a ratio, at least 0; it
 *     is added to the fixed part, as certificates state a + b L
 * @param seed seed of the draws
 * @param draws number of draws kept, at least 200
 */
public record CurveSettings(
        String material,
        double resolutionMm,
        double stepMm,
        double referenceMm,
        double referenceRatio,
        long seed,
        int draws) {
    /** Number of draws that puts the ends of a 95 % interval to about 2 % of its width. */
    public static final int USUAL_DRAWS = 2000;

    /** Checks the parts. */
    public CurveSettings {
        Objects.requireNonNull(material, "material");
        Check.notNegative(resolutionMm, "resolution", "mm");
        Check.notNegative(stepMm, "step of the readings", "mm");
        Check.notNegative(referenceMm, "standard uncertainty of the reference", "mm");
        Check.notNegative(referenceRatio, "standard uncertainty of the reference", "");
        if (draws < 200) {
            throw new IllegalArgumentException("at least 200 draws are needed: " + draws);
        }
    }

    /** Makes settings for readings that differ in steps of their resolution. */
    public CurveSettings(
            String material, double resolutionMm, double referenceMm, double referenceRatio, long seed, int draws) {
        this(material, resolutionMm, resolutionMm, referenceMm, referenceRatio, seed, draws);
    }

    /** Returns the variance in mm² that rounding to a step in mm alone gives to the error of a pass, two readings of step^2 / 12. */
    static double roundingVarianceMm2(double stepMm) {
        return stepMm * stepMm / 6;
    }

    /** Returns the variance of one reading in mm², resolution^2 / 12 (GUM 4.3.7). */
    double readingVarianceMm2() {
        return resolutionMm * resolutionMm / 12;
    }

    /** Returns the reference's standard uncertainty relative to a length, a ratio. */
    double referenceAt(double lengthMm) {
        return referenceRatio + referenceMm / lengthMm;
    }
}
