package slowproof.trial.counts;

import slowproof.trial.Check;

/**
 * A speed from counts with its standard uncertainty, by the better of two ways.
 *
 * <p>Fixed gate: the difference of two rounded counts over the gate time T; averaged over phase its variance is
 * q^2/6, so u = q / (T sqrt 6). Edge to edge: N counts from the first to the last transition, each timed by a clock
 * that ticks every c; relative u = c / ((t_N - t_1) sqrt 6), c being the sampling interval where a counter is read
 * at fixed times. Edges of two channels are not evenly spaced, so the edges must be of the same kind: a whole number
 * of periods apart.
 *
 * @param speedMmPerS speed in mm/s, signed
 * @param standardUncertaintyMmPerS standard uncertainty in mm/s
 * @param way how it was found
 */
public record SpeedEstimate(double speedMmPerS, double standardUncertaintyMmPerS, Way way) {
    /** How a speed was found. */
    public enum Way {
        /** Counts in a fixed time. */
        GATE,
        /** Time for a number of counts. */
        EDGES
    }

    private static final double ROOT_6 = Math.sqrt(6);

    /**
     * Returns the speed by counts in a fixed time.
     *
     * @param counts difference of two readings, signed
     * @param distancePerCountMm distance per count in mm, above zero
     * @param gateS time between the readings in s, above zero
     */
    public static SpeedEstimate gate(double counts, double distancePerCountMm, double gateS) {
        Check.positive(distancePerCountMm, "distance per count", "mm");
        Check.positive(gateS, "gate", "s");
        return new SpeedEstimate(counts * distancePerCountMm / gateS, distancePerCountMm / (gateS * ROOT_6), Way.GATE);
    }

    /**
     * Returns the speed by the time between two edges of the same kind.
     *
     * @param counts counts between the edges, signed
     * @param distancePerCountMm distance per count in mm, above zero
     * @param timeS time between the edges in s, above zero
     * @param tickS time between two ticks of the clock in s, above zero
     */
    public static SpeedEstimate edges(double counts, double distancePerCountMm, double timeS, double tickS) {
        Check.positive(distancePerCountMm, "distance per count", "mm");
        Check.positive(timeS, "time between edges", "s");
        Check.positive(tickS, "tick", "s");
        double speed = counts * distancePerCountMm / timeS;
        return new SpeedEstimate(speed, Math.abs(speed) * tickS / (timeS * ROOT_6), Way.EDGES);
    }

    /** Returns the estimate with the smaller standard uncertainty. */
    public SpeedEstimate or(SpeedEstimate other) {
        return other.standardUncertaintyMmPerS < standardUncertaintyMmPerS ? other : this;
    }

    /**
     * Returns the speed at which both ways are equally good, q / sqrt(T c): slower is better by edges, faster by gate.
     *
     * @param distancePerCountMm distance per count in mm, above zero
     * @param gateS gate in s, above zero
     * @param tickS tick in s, above zero
     */
    public static double crossingMmPerS(double distancePerCountMm, double gateS, double tickS) {
        return Check.positive(distancePerCountMm, "distance per count", "mm")
                / Math.sqrt(Check.positive(gateS, "gate", "s") * Check.positive(tickS, "tick", "s"));
    }
}
