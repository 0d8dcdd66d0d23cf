package slowproof.trial.forecast;

import java.util.List;
import java.util.function.DoubleFunction;
import java.util.function.DoublePredicate;
import org.jspecify.annotations.Nullable;
import slowproof.trial.forecast.Promises.Reason;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineNotPossibleException;
import slowproof.trial.line.LineStep;

/**
 * Inverse questions: root finding on the model. Each is read from the safe side and stops at the first value that does not
 * hold, so that nothing is promised beyond a gap.
 */
final class Inverse {
    private static final int GRID = 24;
    private static final int BISECTIONS = 9;
    private static final int MOST_STOPS = 64;
    private static final double LARGEST_FACTOR = 2;
    private static final double SMALLEST_FACTOR = 0.05;
    private static final double LONGEST_S = 86_400;

    private final LineModel model;
    private final Line line;
    private final long seed;

    Inverse(LineModel model, long seed) {
        this.model = model;
        line = model.line.restAtFastestHold();
        this.seed = seed;
    }

    Promises promises() {
        Judgement now = new Judgement(model);
        double tolerance = now.promisedToleranceMm();
        Reason none = !now.hasTolerance() ? Reason.NO_TOLERANCE : line.cycle().isEmpty() ? Reason.LOGGED : null;
        if (none != null) {
            return Promises.ofTolerance(tolerance, none);
        }
        boolean holdsNow = now.holds();
        Found creep = creep();
        Found acceleration = acceleration();
        Found stops = stops(holdsNow);
        Found rest = standstill(holdsNow);
        Double mostStops = stops.value;
        return new Promises(
                tolerance,
                creep.value,
                creep.reason,
                acceleration.value,
                acceleration.reason,
                mostStops == null ? null : Integer.valueOf((int) Math.round(mostStops)),
                stops.reason,
                rest.value,
                rest.reason);
    }

    private static final class Found {
        final @Nullable Double value;
        final @Nullable Reason reason;

        Found(@Nullable Double value, @Nullable Reason reason) {
            this.value = value;
            this.reason = reason;
        }
    }

    private boolean holds(List<LineStep> cycle) {
        try {
            LineModel changed = LineModel.of(model.evidence, model.curves, line.withCycle(cycle), seed);
            return new Judgement(changed).holds();
        } catch (LineNotPossibleException e) {
            // a cycle that does not fit its piece is no answer
            return false;
        }
    }

    private Found creep() {
        List<LineStep> cycle = line.cycle();
        int at = CycleChanges.creepRamp(cycle);
        if (at < 0) {
            return new Found(null, Reason.NOT_IN_CYCLE);
        }
        double fastest = 0;
        for (LineStep step : cycle) {
            if (step instanceof LineStep.RampTo ramp) {
                fastest = Math.max(fastest, ramp.speedMmPerS());
            }
        }
        double top = Math.min(fastest, model.evidence.fastestMmPerS());
        return downwards(top, model.evidence.slowestMmPerS(), v -> CycleChanges.withCreep(cycle, v));
    }

    private Found acceleration() {
        List<LineStep> cycle = line.cycle();
        double smallest = Coverage.accelerations(cycle, null).stream()
                .mapToDouble(a -> a)
                .min()
                .orElse(0);
        if (!(smallest > 0)) {
            return new Found(null, Reason.NOT_IN_CYCLE);
        }
        Found factor = downwards(LARGEST_FACTOR, SMALLEST_FACTOR, f -> CycleChanges.withAccelerations(cycle, f));
        return new Found(factor.value == null ? null : Double.valueOf(factor.value * smallest), factor.reason);
    }

    /** From the largest value that holds at all downwards to the first that does not. */
    private Found downwards(double high, double low, DoubleFunction<List<LineStep>> cycle) {
        DoublePredicate good = v -> holds(cycle.apply(v));
        double last = Double.NaN;
        for (int i = 0; i <= GRID; i++) {
            double v = high * Math.pow(low / high, (double) i / GRID);
            if (good.test(v)) {
                last = v;
            } else if (!Double.isNaN(last)) {
                double bad = v;
                for (int k = 0; k < BISECTIONS; k++) {
                    double middle = Math.sqrt(bad * last);
                    if (good.test(middle)) {
                        last = middle;
                    } else {
                        bad = middle;
                    }
                }
                return new Found(last, null);
            }
        }
        return Double.isNaN(last) ? new Found(null, Reason.NO_VALUE_HELPS) : new Found(last, null);
    }

    private Found stops(boolean holdsNow) {
        if (!holdsNow) {
            return new Found(null, Reason.NO_VALUE_HELPS);
        }
        List<LineStep> cycle = line.cycle();
        int now =
                model.motions.stream().mapToInt(p -> p.motion().starts()).max().orElse(0);
        int further = 0;
        while (further < MOST_STOPS && holds(CycleChanges.withStops(cycle, further + 1))) {
            further++;
        }
        return new Found((double) now + further, null);
    }

    private Found standstill(boolean holdsNow) {
        Double drift = line.standstillDriftMmPerMin();
        double now = model.motions.stream()
                .mapToDouble(p -> p.motion().standstillS())
                .max()
                .orElse(0);
        if (drift == null || drift == 0) {
            return new Found(null, Reason.NO_DRIFT_STATED);
        }
        if (now == 0) {
            return new Found(null, Reason.NOT_IN_CYCLE);
        }
        if (!holdsNow) {
            return new Found(null, Reason.NO_VALUE_HELPS);
        }
        List<LineStep> cycle = line.cycle();
        double good = 1;
        double bad = 2;
        while (bad * now < LONGEST_S && holds(CycleChanges.withStandstill(cycle, bad))) {
            good = bad;
            bad *= 2;
        }
        if (bad * now >= LONGEST_S) {
            return new Found(null, Reason.ANY_VALUE_HOLDS);
        }
        for (int k = 0; k < BISECTIONS; k++) {
            double middle = 0.5 * (good + bad);
            if (holds(CycleChanges.withStandstill(cycle, middle))) {
                good = middle;
            } else {
                bad = middle;
            }
        }
        return new Found(good * now, null);
    }
}
