package slowproof.archive.typed;

import java.math.BigDecimal;

/**
 * A typed length, understood.
 *
 * @param exactMm the length in mm, or the middle of a range, exact
 * @param widthMm width of the range in mm, 0 when one number was typed
 * @param stepMm value of the last digit typed, in mm
 */
public record Length(BigDecimal exactMm, double widthMm, double stepMm) {
    private static final int MOST_DECIMALS = 9;

    /** Returns the length in mm. */
    public double mm() {
        return exactMm.doubleValue();
    }

    /** Returns the decimals of the length in mm, 0 to 9. */
    public int decimals() {
        return Math.max(0, Math.min(MOST_DECIMALS, exactMm.scale()));
    }
}
