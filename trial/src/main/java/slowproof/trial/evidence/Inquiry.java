package slowproof.trial.evidence;

import org.jspecify.annotations.Nullable;
import slowproof.trial.Check;

/**
 * What somebody wants to know: whether a sensor holds a tolerance of a piece on a material at slow speeds.
 *
 * @param material name of the material, empty when it was not told
 * @param slowestMmPerS slowest speed of the line in mm/s
 * @param fastestMmPerS fastest speed in mm/s, not below the slowest; null when it was not told
 * @param gentlestMmPerS2 smallest acceleration in mm/s2, or null
 * @param hardestMmPerS2 largest acceleration in mm/s2, not below the smallest; or null
 * @param pieceMm length of a piece in mm
 * @param toleranceMm tolerance of a piece, plus or minus, in mm
 */
public record Inquiry(
        String material,
        double slowestMmPerS,
        @Nullable Double fastestMmPerS,
        @Nullable Double gentlestMmPerS2,
        @Nullable Double hardestMmPerS2,
        double pieceMm,
        double toleranceMm) {
    /**
     * Checks the parts.
     *
     * @throws IllegalArgumentException if a number is not above zero or two are in the wrong order
     */
    public Inquiry {
        Check.positive(slowestMmPerS, "slowest speed", "mm/s");
        Check.positive(pieceMm, "length of a piece", "mm");
        Check.positive(toleranceMm, "tolerance", "mm");
        ordered(slowestMmPerS, fastestMmPerS, "speed", "mm/s");
        ordered(gentlestMmPerS2, hardestMmPerS2, "acceleration", "mm/s2");
    }

    private static void ordered(@Nullable Double low, @Nullable Double high, String what, String unit) {
        if (low != null) {
            Check.positive(low, what, unit);
        }
        if (high != null) {
            Check.positive(high, what, unit);
        }
        if (low != null && high != null && low > high) {
            throw new IllegalArgumentException("smallest " + what + " above the largest: " + low + ", " + high);
        }
    }

    /** Returns the tolerance as a share of the length, a ratio. */
    public double permitted() {
        return toleranceMm / pieceMm;
    }

    /** Returns the fastest speed that was told, else the slowest, mm/s. */
    public double upTo() {
        return fastestMmPerS == null ? slowestMmPerS : fastestMmPerS;
    }
}
