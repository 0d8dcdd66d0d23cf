package slowproof.metrology.reference;

/** How well two numbers agree. */
public final class Agreement {
    /** A double carries no more decimal digits than this. */
    public static final double MOST_DIGITS = 15;

    private Agreement() {}

    /**
     * Number of correct significant digits: -log10 of the relative error, or of the absolute error when the target is
     * zero; from 0 (none) to 15 (all that a double carries).
     */
    public static double digits(double computed, double target) {
        if (computed == target) {
            return MOST_DIGITS;
        }
        if (!Double.isFinite(computed)) {
            return 0;
        }
        double scale = target == 0 ? 1 : Math.abs(target);
        double digits = -StrictMath.log10(Math.abs(computed - target) / scale);
        return Math.max(0, Math.min(MOST_DIGITS, digits));
    }
}
