package slowproof.trial.findings;

import java.util.Locale;

/** Direction of travel by the reference's sign. */
public enum Direction {
    FORWARD,
    RETURN,
    /** Forward and return taken together. */
    BOTH;

    /** Returns the word used in files. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * Returns the direction of a signed travel.
     *
     * @param referenceMm signed travel in mm, not zero
     */
    public static Direction of(double referenceMm) {
        return referenceMm > 0 ? FORWARD : RETURN;
    }
}
