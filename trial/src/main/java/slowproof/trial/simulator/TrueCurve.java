package slowproof.trial.simulator;

/**
 * A surface's true local relative error eps as a function of surface speed. Positive: the sensor over-reads,
 * in either direction of travel. Defined for every speed from 0 up.
 */
@FunctionalInterface
public interface TrueCurve {
    /** Search step of {@link #floorMmPerS}, as a ratio of neighbouring speeds; narrower humps may be missed. */
    double FLOOR_SEARCH_RATIO = 1.001;

    /**
     * Returns the local relative error at one speed.
     *
     * @param speedMmPerS magnitude of the surface speed, mm/s, at least 0
     * @return ratio; positive = over-reads
     */
    double at(double speedMmPerS);

    /**
     * Returns the true floor speed: the slowest speed from which on, up to {@code fastestMmPerS}, the magnitude
     * of the error stays inside the limit. Searched from the fast end downwards, then bisected.
     *
     * @param limitRatio largest permitted magnitude of the relative error, ratio, positive
     * @param slowestMmPerS slow end of the search, mm/s, positive
     * @param fastestMmPerS fast end of the search, mm/s, above the slow end
     * @return mm/s, to 1e-12 of its value; 0 when the limit holds throughout the range, positive infinity when it
     *     does not hold at the fast end
     * @throws IllegalArgumentException if an argument is not positive or the range is empty
     */
    default double floorMmPerS(double limitRatio, double slowestMmPerS, double fastestMmPerS) {
        Check.positive(limitRatio, "limit");
        Check.positive(slowestMmPerS, "slowest speed");
        Check.positive(fastestMmPerS, "fastest speed");
        if (!(fastestMmPerS > slowestMmPerS)) {
            throw new IllegalArgumentException(
                    "speed range is empty: " + slowestMmPerS + " to " + fastestMmPerS + " mm/s");
        }
        if (!(Math.abs(at(fastestMmPerS)) <= limitRatio)) {
            return Double.POSITIVE_INFINITY;
        }
        double holds = fastestMmPerS;
        while (holds > slowestMmPerS) {
            double slower = Math.max(slowestMmPerS, holds / FLOOR_SEARCH_RATIO);
            if (!(Math.abs(at(slower)) <= limitRatio)) {
                return bisect(limitRatio, slower, holds);
            }
            holds = slower;
        }
        return 0;
    }

    private double bisect(double limitRatio, double failingMmPerS, double holdingMmPerS) {
        double fails = failingMmPerS;
        double holds = holdingMmPerS;
        while (holds - fails > 1e-12 * holds) {
            double middle = 0.5 * (fails + holds);
            if (Math.abs(at(middle)) <= limitRatio) {
                holds = middle;
            } else {
                fails = middle;
            }
        }
        return holds;
    }
}
