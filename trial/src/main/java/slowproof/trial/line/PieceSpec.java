package slowproof.trial.line;

import org.jspecify.annotations.Nullable;
import slowproof.trial.Check;

/**
 * What the customer wants of a piece.
 *
 * @param lengthMm length in mm, above zero
 * @param lowerMm least permitted deviation of its length in mm, negative or zero; null without a tolerance
 * @param upperMm largest permitted deviation in mm, positive or zero and not equal to the lower; null without a tolerance
 * @param share share of such pieces in a mix, above zero; shares need not add up to 1
 */
public record PieceSpec(
        double lengthMm, @Nullable Double lowerMm, @Nullable Double upperMm, double share) {
    /** Checks the parts. */
    public PieceSpec {
        Check.positive(lengthMm, "length", "mm");
        Check.positive(share, "share", "");
        if ((lowerMm == null) != (upperMm == null)) {
            throw new IllegalArgumentException("a tolerance has two ends");
        }
        if (lowerMm != null && upperMm != null) {
            Check.notNegative(-lowerMm, "tolerance below", "mm");
            Check.notNegative(upperMm, "tolerance above", "mm");
            if (!(upperMm > lowerMm)) {
                throw new IllegalArgumentException("a tolerance of zero cannot be met");
            }
        }
    }

    /** Returns a piece with a tolerance of plus or minus {@code toleranceMm}. */
    public static PieceSpec of(double lengthMm, double toleranceMm) {
        return new PieceSpec(lengthMm, -toleranceMm, toleranceMm, 1);
    }

    /** Returns half the width of the tolerance in mm, or null. */
    public @Nullable Double halfToleranceMm() {
        return lowerMm == null || upperMm == null ? null : Double.valueOf((upperMm - lowerMm) / 2);
    }
}
