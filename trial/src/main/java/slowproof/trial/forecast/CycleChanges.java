package slowproof.trial.forecast;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.line.LineStep;

/** Changes of a described cycle: creep speed, accelerations, stops, time at rest. */
public final class CycleChanges {
    private CycleChanges() {}

    /** Returns the place of the ramp to the slowest speed that is held, if another is held faster; -1 if there is none. */
    static int creepRamp(List<LineStep> steps) {
        int slowest = -1;
        double least = Double.POSITIVE_INFINITY;
        double most = 0;
        for (int i = 0; i + 1 < steps.size(); i++) {
            if (steps.get(i) instanceof LineStep.RampTo ramp && ramp.speedMmPerS() > 0 && holds(steps.get(i + 1))) {
                most = Math.max(most, ramp.speedMmPerS());
                if (ramp.speedMmPerS() < least) {
                    least = ramp.speedMmPerS();
                    slowest = i;
                }
            }
        }
        return least < most ? slowest : -1;
    }

    /** Returns the creep speed in mm/s: the slowest of several speeds that are held; null when there is none. */
    public static @Nullable Double creepMmPerS(List<LineStep> steps) {
        int at = creepRamp(steps);
        return at >= 0 && steps.get(at) instanceof LineStep.RampTo ramp ? Double.valueOf(ramp.speedMmPerS()) : null;
    }

    private static boolean holds(LineStep step) {
        return step instanceof LineStep.HoldMm || step instanceof LineStep.HoldS || step instanceof LineStep.HoldRest;
    }

    /**
     * Returns the cycle with another creep speed.
     *
     * @throws IllegalArgumentException if the cycle has no creep
     */
    public static List<LineStep> withCreep(List<LineStep> steps, double speedMmPerS) {
        int at = creepRamp(steps);
        if (at < 0 || !(steps.get(at) instanceof LineStep.RampTo ramp)) {
            throw new IllegalArgumentException("the cycle has no creep");
        }
        List<LineStep> changed = new ArrayList<>(steps);
        changed.set(at, new LineStep.RampTo(speedMmPerS, ramp.accelerationMmPerS2(), ramp.jerkMmPerS3()));
        return changed;
    }

    /** Returns the cycle with all accelerations multiplied. */
    static List<LineStep> withAccelerations(List<LineStep> steps, double factor) {
        List<LineStep> changed = new ArrayList<>();
        for (LineStep step : steps) {
            if (step instanceof LineStep.RampTo ramp) {
                Double jerk = ramp.jerkMmPerS3();
                changed.add(new LineStep.RampTo(
                        ramp.speedMmPerS(),
                        factor * ramp.accelerationMmPerS2(),
                        jerk == null ? null : Double.valueOf(factor * jerk)));
            } else if (step instanceof LineStep.Reverse reverse) {
                changed.add(new LineStep.Reverse(
                        reverse.distanceMm(), reverse.speedMmPerS(), factor * reverse.accelerationMmPerS2()));
            } else if (step instanceof LineStep.Repeat repeat) {
                changed.add(new LineStep.Repeat(repeat.times(), withAccelerations(repeat.steps(), factor)));
            } else {
                changed.add(step);
            }
        }
        return changed;
    }

    /**
     * Returns the cycle with further stops before the first ramp: ramp up, ramp down, so many times. A hold of a fixed
     * distance after that ramp gives the way for them where it is long enough.
     */
    static List<LineStep> withStops(List<LineStep> steps, int further) {
        int first = 0;
        while (first < steps.size() && !(steps.get(first) instanceof LineStep.RampTo)) {
            first++;
        }
        if (first == steps.size() || further == 0 || !(steps.get(first) instanceof LineStep.RampTo ramp)) {
            return steps;
        }
        List<LineStep> changed = new ArrayList<>(steps);
        if (first + 1 < steps.size() && steps.get(first + 1) instanceof LineStep.HoldMm hold) {
            double each = ramp.speedMmPerS() * ramp.speedMmPerS() / ramp.accelerationMmPerS2();
            changed.set(first + 1, new LineStep.HoldMm(Math.max(0, hold.distanceMm() - further * each)));
        }
        changed.add(
                first,
                new LineStep.Repeat(
                        further,
                        List.of(ramp, new LineStep.RampTo(0, ramp.accelerationMmPerS2(), ramp.jerkMmPerS3()))));
        return changed;
    }

    /** Returns the cycle with every stop lasting so many times as long. */
    static List<LineStep> withStandstill(List<LineStep> steps, double factor) {
        List<LineStep> changed = new ArrayList<>();
        for (LineStep step : steps) {
            changed.add(step instanceof LineStep.Stop stop ? new LineStep.Stop(factor * stop.durationS()) : step);
        }
        return changed;
    }

    /** Returns the cycle without its first stop on the way, if it has a repeated stop: one repeat less; else null. */
    static @Nullable List<LineStep> oneStopLess(List<LineStep> steps) {
        for (int i = 0; i < steps.size(); i++) {
            if (steps.get(i) instanceof LineStep.Repeat repeat && repeat.times() > 1) {
                List<LineStep> changed = new ArrayList<>(steps);
                changed.set(i, new LineStep.Repeat(repeat.times() - 1, repeat.steps()));
                return changed;
            }
        }
        return null;
    }
}
