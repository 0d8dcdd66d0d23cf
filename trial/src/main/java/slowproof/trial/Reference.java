package slowproof.trial;

import org.jspecify.annotations.Nullable;

/**
 * What the sensor is compared with.
 *
 * @param name what the user calls it, empty when unnamed
 * @param kind what it is
 * @param expandedUncertaintyMm fixed part of the expanded uncertainty in mm, not negative; null when unknown
 * @param expandedUncertaintyPpm part proportional to length, in 1e-6 of it, not negative; null for none
 * @param coverageFactor coverage factor k of that uncertainty, above zero
 * @param tapeClass accuracy class when the reference is a classed tape without a certificate; else null
 * @param circumferenceMm circumference of a roll in mm, above zero; null unless the reference is a roll
 * @param certificate certificate that the uncertainty comes from
 */
public record Reference(
        String name,
        Kind kind,
        @Nullable Double expandedUncertaintyMm,
        @Nullable Double expandedUncertaintyPpm,
        double coverageFactor,
        @Nullable TapeClass tapeClass,
        @Nullable Double circumferenceMm,
        Certificate certificate) {

    /** What a reference can be. */
    public enum Kind {
        /** A driven axis with its own scale. */
        AXIS,
        /** A tape or rule. */
        TAPE,
        /** A roll of known circumference that turns with the material. */
        ROLL,
        /** Anything else. */
        OTHER
    }

    /** Returns a reference of whose certificate nothing is known. */
    public Reference(
            String name,
            Kind kind,
            @Nullable Double expandedUncertaintyMm,
            @Nullable Double expandedUncertaintyPpm,
            double coverageFactor,
            @Nullable TapeClass tapeClass,
            @Nullable Double circumferenceMm) {
        this(
                name,
                kind,
                expandedUncertaintyMm,
                expandedUncertaintyPpm,
                coverageFactor,
                tapeClass,
                circumferenceMm,
                Certificate.NONE);
    }

    /** Checks the parts. */
    public Reference {
        if (expandedUncertaintyMm != null) {
            Check.notNegative(expandedUncertaintyMm, "expanded uncertainty of the reference", "mm");
        }
        if (expandedUncertaintyPpm != null) {
            Check.notNegative(expandedUncertaintyPpm, "expanded uncertainty of the reference", "ppm");
        }
        Check.positive(coverageFactor, "coverage factor", "");
        if (circumferenceMm != null) {
            Check.positive(circumferenceMm, "circumference", "mm");
        }
    }

    /** Returns a reference of which nothing is known. */
    public static Reference unknown() {
        return new Reference("", Kind.OTHER, null, null, 2, null, null);
    }

    /** Returns true when an uncertainty can be stated, so that decisions are possible. */
    public boolean hasUncertainty() {
        return expandedUncertaintyMm != null || expandedUncertaintyPpm != null || tapeClass != null;
    }

    /**
     * Returns the standard uncertainty of a length in mm: (fixed part + proportional part) / k, added and not
     * in quadrature as certificates state a + b L; for a classed tape its permissible error as a rectangular
     * distribution, divided by sqrt(3) (JCGM 100:2008, 4.3.7).
     *
     * @param lengthMm length in mm, not negative
     * @throws IllegalStateException if no uncertainty is known
     */
    public double standardUncertaintyMm(double lengthMm) {
        if (expandedUncertaintyMm != null || expandedUncertaintyPpm != null) {
            double fixed = expandedUncertaintyMm == null ? 0 : expandedUncertaintyMm;
            double ppm = expandedUncertaintyPpm == null ? 0 : expandedUncertaintyPpm;
            return (fixed + ppm * 1e-6 * lengthMm) / coverageFactor;
        }
        if (tapeClass != null) {
            return tapeClass.permissibleErrorMm(lengthMm) / Math.sqrt(3);
        }
        throw new IllegalStateException("the uncertainty of the reference is unknown");
    }

    /** Returns the expanded uncertainty of a length in mm, coverage factor as stated (2 for a classed tape). */
    public double expandedUncertaintyMm(double lengthMm) {
        return standardUncertaintyMm(lengthMm) * coverageFactor;
    }
}
