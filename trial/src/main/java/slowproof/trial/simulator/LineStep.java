package slowproof.trial.simulator;

/** One step of a line's cycle, in the order of time. */
public sealed interface LineStep {
    /**
     * Changes the speed.
     *
     * @param speedMmPerS signed speed to reach, mm/s
     * @param accelerationMmPerS2 magnitude of the acceleration, mm/s2, positive
     */
    record RampTo(double speedMmPerS, double accelerationMmPerS2) implements LineStep {
        /** Checks the parts. */
        public RampTo {
            Check.finite(speedMmPerS, "speed");
            Check.positive(accelerationMmPerS2, "acceleration");
        }
    }

    /**
     * Keeps the speed over a distance.
     *
     * @param distanceMm mm, at least 0
     */
    record HoldMm(double distanceMm) implements LineStep {
        /** Checks the part. */
        public HoldMm {
            Check.notNegative(distanceMm, "distance");
        }
    }

    /**
     * Keeps the speed for a time.
     *
     * @param durationS s, at least 0
     */
    record HoldS(double durationS) implements LineStep {
        /** Checks the part. */
        public HoldS {
            Check.notNegative(durationS, "duration");
        }
    }

    /** Keeps the speed for what is left of the piece when the other steps have had their share; at most one in a cycle. */
    record HoldRest() implements LineStep {}

    /**
     * Stands still.
     *
     * @param durationS s, at least 0
     */
    record Stop(double durationS) implements LineStep {
        /** Checks the part. */
        public Stop {
            Check.notNegative(durationS, "stop");
        }
    }
}
