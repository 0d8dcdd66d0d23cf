package slowproof.trial.line;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Check;

/** One step of a line's cycle, in the order of time. The cycle starts at rest. */
public sealed interface LineStep {
    /**
     * Changes the speed.
     *
     * @param speedMmPerS signed speed to reach, mm/s; 0 stops, negative runs backwards
     * @param accelerationMmPerS2 size of the acceleration, mm/s², above zero; the largest one of an S-shaped ramp
     * @param jerkMmPerS3 size of the jerk of an S-shaped ramp, mm/s³, above zero; null for a plain ramp
     */
    record RampTo(
            double speedMmPerS,
            double accelerationMmPerS2,
            @Nullable Double jerkMmPerS3) implements LineStep {
        /** Checks the parts. */
        public RampTo {
            Check.finite(speedMmPerS, "speed", "mm/s");
            Check.positive(accelerationMmPerS2, "acceleration", "mm/s²");
            if (jerkMmPerS3 != null) {
                Check.positive(jerkMmPerS3, "jerk", "mm/s³");
            }
        }

        /** Returns a plain ramp. */
        public static RampTo of(double speedMmPerS, double accelerationMmPerS2) {
            return new RampTo(speedMmPerS, accelerationMmPerS2, null);
        }
    }

    /**
     * Keeps the speed over a distance.
     *
     * @param distanceMm mm, not negative
     */
    record HoldMm(double distanceMm) implements LineStep {
        /** Checks the part. */
        public HoldMm {
            Check.notNegative(distanceMm, "distance", "mm");
        }
    }

    /**
     * Keeps the speed for a time.
     *
     * @param durationS s, not negative
     */
    record HoldS(double durationS) implements LineStep {
        /** Checks the part. */
        public HoldS {
            Check.notNegative(durationS, "duration", "s");
        }
    }

    /** Keeps the speed for what is left of the pieces when the other steps have had their share; one in a cycle at most. */
    record HoldRest() implements LineStep {}

    /**
     * Stands still.
     *
     * @param durationS s, not negative
     */
    record Stop(double durationS) implements LineStep {
        /** Checks the part. */
        public Stop {
            Check.notNegative(durationS, "stop", "s");
        }
    }

    /**
     * Runs backwards from rest to rest.
     *
     * @param distanceMm distance, mm, above zero
     * @param speedMmPerS highest speed, mm/s, above zero
     * @param accelerationMmPerS2 acceleration and deceleration, mm/s², above zero
     */
    record Reverse(double distanceMm, double speedMmPerS, double accelerationMmPerS2) implements LineStep {
        /** Checks the parts. */
        public Reverse {
            Check.positive(distanceMm, "distance", "mm");
            Check.positive(speedMmPerS, "speed", "mm/s");
            Check.positive(accelerationMmPerS2, "acceleration", "mm/s²");
        }
    }

    /**
     * Does steps several times.
     *
     * @param times how often, at least 1
     * @param steps the steps, none of which holds the rest
     */
    record Repeat(int times, List<LineStep> steps) implements LineStep {
        /** Checks and copies the parts. */
        public Repeat {
            steps = List.copyOf(steps);
            if (times < 1) {
                throw new IllegalArgumentException("steps are repeated at least once, found " + times);
            }
            if (steps.stream().anyMatch(HoldRest.class::isInstance)) {
                throw new IllegalArgumentException("the rest of a piece cannot be held several times");
            }
        }
    }
}
