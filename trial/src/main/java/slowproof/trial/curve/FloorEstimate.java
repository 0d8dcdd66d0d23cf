package slowproof.trial.curve;

import java.util.Arrays;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * The floor speed of one material for one limit. Speeds in mm/s.
 *
 * <p>From a curve: v* of each draw is the slowest speed from which on, up to the fastest tested, the size of the
 * error stays inside the limit. The estimate is the median of v*, low and high its 2.5 and 97.5 % quantiles,
 * proven its 95 % quantile: the speed that may be promised. Safe is the slowest speed from which on, read
 * from the fastest downwards, each single speed is inside with a probability of at least 0.95.
 *
 * @param status kind of answer
 * @param estimate estimated floor; for {@link Status#HOLDS_THROUGHOUT} null, and null in a bracket
 * @param low lower end of the 95 % interval, null when it reaches below the slowest tested speed; in a bracket the
 *     fastest tested speed shown to fail below {@code high}, null when none is
 * @param high upper end, null when it reaches beyond the fastest tested speed; in a bracket the slowest tested speed
 *     from which on all are shown to hold
 * @param proven one-sided 95 % upper bound of the floor; the slowest tested speed when it holds throughout; null when
 *     nothing can be promised
 * @param safe slowest speed from which on each is inside with probability 0.95, or null
 * @param bandLow slow end of the band in which the limit holds, with {@link Status#HOLDS_IN_A_BAND} only
 * @param bandHigh fast end of that band
 * @param testedDownTo slowest tested speed
 * @param testedUpTo fastest tested speed
 * @param throughoutProbability probability that the limit holds down to the slowest tested speed; NaN in a bracket
 * @param nowhereProbability probability that it does not hold at the fastest tested speed; NaN in a bracket
 */
public record FloorEstimate(
        Status status,
        @Nullable Double estimate,
        @Nullable Double low,
        @Nullable Double high,
        @Nullable Double proven,
        @Nullable Double safe,
        @Nullable Double bandLow,
        @Nullable Double bandHigh,
        double testedDownTo,
        double testedUpTo,
        double throughoutProbability,
        double nowhereProbability) {
    private static final double SURE = 0.95;

    /** Kinds of answer. */
    public enum Status {
        /** An estimate with an interval. */
        FOUND,
        /** Two tested speeds: holds at one, fails at the other, nothing tested or decided between. */
        BRACKET,
        /** Holds down to the slowest tested speed. */
        HOLDS_THROUGHOUT,
        /** Holds between two speeds, but not at the fastest. */
        HOLDS_IN_A_BAND,
        /** Does not hold at any tested speed. */
        DOES_NOT_HOLD,
        /** The trial cannot tell. */
        UNDECIDED;

        /** Returns the status as written in files. */
        public String key() {
            return name().toLowerCase(Locale.ROOT).replace('_', ' ');
        }
    }

    /**
     * Returns the floor of a curve.
     *
     * @param curve the curve
     * @param limit largest permitted size of the relative error (ratio), greater than 0
     */
    public static FloorEstimate of(ErrorCurve curve, double limit) {
        if (!(limit > 0 && limit < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("limit must be greater than 0: " + limit);
        }
        CurveDraws draws = curve.draws();
        int count = draws.count();
        double[] floors = new double[count];
        int throughout = 0;
        int nowhere = 0;
        for (int i = 0; i < count; i++) {
            floors[i] = draws.floorMmPerS(i, limit);
            throughout += floors[i] == 0 ? 1 : 0;
            nowhere += floors[i] == Double.POSITIVE_INFINITY ? 1 : 0;
        }
        Arrays.sort(floors);
        double slowest = curve.slowestMmPerS();
        double holdsThroughout = (double) throughout / count;
        double holdsNowhere = (double) nowhere / count;
        double[] inside = insideProbabilities(draws, limit);
        Double safe = safe(draws, inside);
        Double proven = inRange(Math.max(slowest, Quantiles.upper(floors, SURE)));
        Status status;
        if (holdsThroughout >= SURE) {
            status = Status.HOLDS_THROUGHOUT;
        } else if (holdsNowhere >= SURE) {
            int[] band = band(inside);
            if (band != null) {
                return new FloorEstimate(
                        Status.HOLDS_IN_A_BAND,
                        null,
                        null,
                        null,
                        null,
                        null,
                        draws.nodeMmPerS(band[0]),
                        draws.nodeMmPerS(band[1]),
                        slowest,
                        curve.fastestMmPerS(),
                        holdsThroughout,
                        holdsNowhere);
            }
            status = surelyOutside(draws, limit) ? Status.DOES_NOT_HOLD : Status.UNDECIDED;
        } else {
            status = proven == null ? Status.UNDECIDED : Status.FOUND;
        }
        boolean found = status == Status.FOUND;
        double median = Quantiles.upper(floors, 0.5);
        double low = Quantiles.lower(floors, 0.025);
        return new FloorEstimate(
                status,
                found || status == Status.UNDECIDED ? inRange(Math.max(slowest, median)) : null,
                low == 0 ? null : inRange(low),
                status == Status.HOLDS_THROUGHOUT ? null : inRange(Math.max(slowest, Quantiles.upper(floors, 0.975))),
                proven,
                safe,
                null,
                null,
                slowest,
                curve.fastestMmPerS(),
                holdsThroughout,
                holdsNowhere);
    }

    private static @Nullable Double inRange(double speed) {
        return speed > 0 && speed < Double.POSITIVE_INFINITY ? speed : null;
    }

    /** Share of the draws inside the limit at each node. */
    private static double[] insideProbabilities(CurveDraws draws, double limit) {
        double[] inside = new double[draws.nodes()];
        for (int k = 0; k < inside.length; k++) {
            int hits = 0;
            for (int i = 0; i < draws.count(); i++) {
                hits += Math.abs(draws.at(i, k)) <= limit ? 1 : 0;
            }
            inside[k] = (double) hits / draws.count();
        }
        return inside;
    }

    private static @Nullable Double safe(CurveDraws draws, double[] inside) {
        int k = inside.length - 1;
        if (inside[k] < SURE) {
            return null;
        }
        while (k > 0 && inside[k - 1] >= SURE) {
            k--;
        }
        if (k == 0) {
            return draws.nodeMmPerS(0);
        }
        double share = (inside[k] - SURE) / (inside[k] - inside[k - 1]);
        return draws.nodeMmPerS(k) * Math.pow(draws.nodeMmPerS(k - 1) / draws.nodeMmPerS(k), share);
    }

    /** First and last node of the fastest run of nodes that are inside with probability 0.95, or null. */
    private static int @Nullable [] band(double[] inside) {
        int high = inside.length - 1;
        while (high >= 0 && inside[high] < SURE) {
            high--;
        }
        if (high < 0) {
            return null;
        }
        int low = high;
        while (low > 0 && inside[low - 1] >= SURE) {
            low--;
        }
        return new int[] {low, high};
    }

    /** Whether at every node the draws are outside with probability 0.95. */
    private static boolean surelyOutside(CurveDraws draws, double limit) {
        for (double inside : insideProbabilities(draws, limit)) {
            if (inside > 1 - SURE) {
                return false;
            }
        }
        return true;
    }
}
