package slowproof.trial;

import org.jspecify.annotations.Nullable;

/**
 * Limits of length measuring instruments after Directive 2014/32/EU, Annex XI (MI-009), chapter II: a percentage
 * of the length, but not less than a share of the smallest measurable length. All figures are from memory of the
 * directive, the shares with little confidence; results that use a preset say so.
 */
public enum LimitPreset {
    /** 0.125 %, at least 0.005 of the smallest measurable length. */
    LENGTH_CLASS_I(0.00125, 0.005),
    /** 0.25 %, at least 0.01 of the smallest measurable length. */
    LENGTH_CLASS_II(0.0025, 0.01),
    /** 0.5 %, at least 0.02 of the smallest measurable length. */
    LENGTH_CLASS_III(0.005, 0.02);

    private final double relative;
    private final double shareOfSmallest;

    LimitPreset(double relative, double shareOfSmallest) {
        this.relative = relative;
        this.shareOfSmallest = shareOfSmallest;
    }

    /**
     * Returns the limit of the class.
     *
     * @param smallestLengthMm smallest measurable length in mm, above zero
     * @param atLengthMm length in mm at which a curve is judged, or null
     */
    public Limit limit(double smallestLengthMm, @Nullable Double atLengthMm) {
        double leastMm = shareOfSmallest * Check.positive(smallestLengthMm, "smallest length", "mm");
        return new Limit(relative, 0, leastMm, atLengthMm, name());
    }

    /**
     * Returns the smallest measurable length in mm that a limit of this class was made with.
     *
     * @param limit limit made by {@link #limit}
     */
    public double smallestLengthMm(Limit limit) {
        return limit.minimumMm() / shareOfSmallest;
    }
}
