package slowproof.trial.simulator;

import java.util.List;

/**
 * The cycle of a line that makes one piece, from rest to rest or at least back to the speed it began with.
 *
 * @param pieceMm length of the piece, mm, positive: the net travel of the cycle
 * @param steps the steps in order of time, starting at rest
 */
public record LineCycle(double pieceMm, List<LineStep> steps) {
    /** Checks and copies the parts. */
    public LineCycle {
        Check.positive(pieceMm, "piece");
        steps = List.copyOf(steps);
        if (steps.stream().filter(LineStep.HoldRest.class::isInstance).count() > 1) {
            throw new IllegalArgumentException("a cycle holds the rest of its piece once at most");
        }
    }

    /**
     * Returns the motion of one cycle.
     *
     * @throws IllegalArgumentException if the steps without the rest are longer than the piece, or, where no step
     *     holds the rest, do not add up to the piece within 0.001 mm
     * @throws IllegalStateException if a step needs motion or rest and finds the other
     */
    public Motion motion() {
        double restMm = pieceMm - motion(0).positionMm();
        boolean holdsRest = steps.stream().anyMatch(LineStep.HoldRest.class::isInstance);
        if (!(holdsRest ? restMm >= 0 : Math.abs(restMm) <= 0.001)) {
            throw new IllegalArgumentException("the cycle leaves " + restMm + " mm of a piece of " + pieceMm + " mm");
        }
        return motion(restMm).build();
    }

    private Motion.Builder motion(double restMm) {
        Motion.Builder motion = Motion.builder();
        for (LineStep step : steps) {
            if (step instanceof LineStep.RampTo ramp) {
                motion.rampTo(ramp.speedMmPerS(), ramp.accelerationMmPerS2());
            } else if (step instanceof LineStep.HoldMm hold) {
                motion.cruise(hold.distanceMm());
            } else if (step instanceof LineStep.HoldS hold) {
                motion.cruiseFor(hold.durationS());
            } else if (step instanceof LineStep.Stop stop) {
                motion.dwell(stop.durationS());
            } else {
                motion.cruise(restMm);
            }
        }
        return motion;
    }

    /**
     * Returns the true error of pieces of a material on this line.
     *
     * @param material the true surface
     */
    public LineTruth lineTruth(TrueMaterial material) {
        return LineTruth.of(motion(), material);
    }
}
