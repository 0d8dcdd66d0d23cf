package slowproof.trial;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * Largest permissible error of a length L: max(a + b L, minimum) (VIM 4.26). Inside or outside is judged in
 * exact decimals, so that a figure exactly on the limit is inside.
 *
 * @param relative b, a ratio, not negative
 * @param absoluteMm a in mm, not negative
 * @param minimumMm least value in mm, not negative; 0 for none
 * @param atLengthMm length in mm at which a curve of relative errors is judged; null for the median stroke
 * @param preset name of the preset it comes from, or null
 */
public record Limit(
        double relative,
        double absoluteMm,
        double minimumMm,
        @Nullable Double atLengthMm,
        @Nullable String preset) {
    /** Checks the parts. */
    public Limit {
        Check.notNegative(relative, "relative limit", "");
        Check.notNegative(absoluteMm, "absolute limit", "mm");
        Check.notNegative(minimumMm, "least limit", "mm");
        if (!(relative + absoluteMm + minimumMm > 0)) {
            throw new IllegalArgumentException("a limit of zero cannot be met");
        }
        if (atLengthMm != null) {
            Check.positive(atLengthMm, "length at which the limit is judged", "mm");
        }
    }

    /** Returns a limit a + b L. */
    public static Limit of(double relative, double absoluteMm) {
        return new Limit(relative, absoluteMm, 0, null, null);
    }

    /**
     * Returns the largest permissible error in mm.
     *
     * @param lengthMm length in mm, not negative
     */
    public double permissibleErrorMm(double lengthMm) {
        return Math.max(absoluteMm + relative * lengthMm, minimumMm);
    }

    /**
     * Returns the largest permissible error relative to the length, a ratio.
     *
     * @param lengthMm length in mm, above zero
     */
    public double permissibleRatio(double lengthMm) {
        return permissibleErrorMm(lengthMm) / Check.positive(lengthMm, "length", "mm");
    }

    /**
     * Tells whether a relative error lies inside the limit of a mean length, both ends included.
     *
     * @param errorMm error in mm as recorded, exact
     * @param lengthMm length of that pass in mm as recorded, above zero
     * @param lengthSumMm sum of the lengths of the condition in mm
     * @param lengths how many lengths that sum has, at least 1
     */
    public boolean holds(BigDecimal errorMm, BigDecimal lengthMm, BigDecimal lengthSumMm, int lengths) {
        // |E| / L <= MPE(mean) / mean, multiplied out so that no division rounds
        BigDecimal n = BigDecimal.valueOf(lengths);
        BigDecimal free = BigDecimal.valueOf(absoluteMm)
                .multiply(n)
                .add(BigDecimal.valueOf(relative).multiply(lengthSumMm));
        BigDecimal permitted = free.max(BigDecimal.valueOf(minimumMm).multiply(n));
        return errorMm.abs().multiply(lengthSumMm).compareTo(permitted.multiply(lengthMm)) <= 0;
    }
}
