package slowproof.trial.evidence;

import java.util.function.DoubleSupplier;
import org.jspecify.annotations.Nullable;

/**
 * How far evidence lies from an inquiry, each part zero when it covers it. Speeds, accelerations and lengths count as
 * the logarithm of the ratio that is missing, so that a factor weighs the same at every speed.
 *
 * @param material 1 minus the likeness of the names, 0 to 1
 * @param speed logarithm of the factors missing at the slow and the fast end
 * @param acceleration the same for accelerations, beyond a factor of 2
 * @param length the same for the length of a piece against the passes
 */
public record Distance(double material, double speed, double acceleration, double length) {
    /** A name with nothing in common weighs as much as a speed that is missing by the factor exp(5), 150; our choice. */
    static final double MATERIAL_WEIGHT = 5;

    /** Accelerations matter less than speeds: they change how long a speed lasts, not which error it has; our choice. */
    static final double ACCELERATION_WEIGHT = 0.5;

    /** A relative error hardly depends on the length but for the start of a move; our choice. */
    static final double LENGTH_WEIGHT = 0.25;

    /** Accelerations within this factor count as tried, as they do in a forecast. */
    static final double TRIED_FACTOR = 2;

    /** Returns the distance of evidence from an inquiry. */
    public static Distance of(Inquiry inquiry, Evidence evidence) {
        return of(inquiry, evidence, NameLikeness.of(inquiry.material(), evidence.material()));
    }

    /**
     * Returns the distance of evidence from an inquiry.
     *
     * @param likeness likeness of their names, 0 to 1, as {@link NameLikeness#of} gives it
     */
    public static Distance of(Inquiry inquiry, Evidence evidence, double likeness) {
        return new Distance(
                1 - likeness,
                beyond(evidence.slowestMmPerS(), inquiry.slowestMmPerS())
                        + beyond(inquiry.upTo(), evidence.fastestMmPerS()),
                acceleration(inquiry, evidence),
                beyond(evidence.shortestMm(), inquiry.pieceMm()) + beyond(inquiry.pieceMm(), evidence.longestMm()));
    }

    private static double acceleration(Inquiry inquiry, Evidence evidence) {
        Double gentlest = inquiry.gentlestMmPerS2();
        Double hardest = inquiry.hardestMmPerS2();
        if (gentlest == null && hardest == null) {
            return 0;
        }
        Double low = evidence.slowestAccelerationMmPerS2();
        Double high = evidence.fastestAccelerationMmPerS2();
        if (low == null || high == null) {
            // not on record: as far as one that is just no longer tried
            return Math.log(TRIED_FACTOR);
        }
        return part(gentlest, () -> beyond(low / TRIED_FACTOR, required(gentlest)))
                + part(hardest, () -> beyond(required(hardest), TRIED_FACTOR * high));
    }

    private static double part(@Nullable Double asked, DoubleSupplier distance) {
        return asked == null ? 0 : distance.getAsDouble();
    }

    private static double required(@Nullable Double value) {
        return value == null ? Double.NaN : value;
    }

    /** Returns ln(high/low) when high lies above low, else 0. */
    private static double beyond(double high, double low) {
        return Math.max(0, Math.log(high / low));
    }

    /** Returns the least whole distance that evidence can have whose name has that likeness, 0 to 1. */
    public static double atLeast(double likeness) {
        return MATERIAL_WEIGHT * (1 - likeness);
    }

    /** Returns the whole distance, weighted; 0 when everything is covered under the same name. */
    public double total() {
        return MATERIAL_WEIGHT * material + speed + ACCELERATION_WEIGHT * acceleration + LENGTH_WEIGHT * length;
    }
}
