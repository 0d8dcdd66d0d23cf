package slowproof.trial;

/**
 * What the maker promises, kept apart from the customer's limit.
 *
 * @param relative stated largest relative error, a ratio above zero
 * @param fromSpeedMmPerS speed in mm/s from which it is meant, not negative
 */
public record StatedAccuracy(double relative, double fromSpeedMmPerS) {
    /** Checks the parts. */
    public StatedAccuracy {
        Check.positive(relative, "stated accuracy", "");
        Check.notNegative(fromSpeedMmPerS, "speed of the stated accuracy", "mm/s");
    }
}
