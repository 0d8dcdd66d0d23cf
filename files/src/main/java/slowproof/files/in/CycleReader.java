package slowproof.files.in;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.line.LineStep;

/** Reads the steps of a cycle from a line file. One use, one thread. */
final class CycleReader {
    /** What a step can do, and the further keys that go with it. */
    private static final Map<String, List<String>> KINDS = kinds();

    private static final Set<String> STEP = keys();
    private static final int MOST_REPEATS = 10_000;
    /** Repeats within repeats multiply; more steps than this are a slip, and would fill the memory. */
    private static final int MOST_STEPS = 100_000;

    private final Problems problems;
    private final List<LineStep> steps;
    private final List<SourcePosition> places;

    /**
     * Reads the steps under {@code cycle:}; notes what is wrong with them.
     *
     * @param top the line file
     * @param problems where to note problems
     */
    CycleReader(YamlMap top, Problems problems) {
        this.problems = problems;
        List<YamlMap> maps = top.maps("cycle", STEP);
        places = maps.stream().map(YamlMap::at).toList();
        steps = read(maps);
        double count = count(steps);
        if (count > MOST_STEPS) {
            problems.add(ProblemCode.LINE_TOO_MANY_STEPS, top.at("cycle"), count, (double) MOST_STEPS);
        }
    }

    private static Map<String, List<String>> kinds() {
        Map<String, List<String>> kinds = new LinkedHashMap<>();
        kinds.put("ramp_to_mm_s", List.of("acceleration_mm_s2", "jerk_mm_s3"));
        kinds.put("reverse_mm", List.of("speed_mm_s", "acceleration_mm_s2"));
        kinds.put("hold_mm", List.of());
        kinds.put("hold_s", List.of());
        kinds.put("hold_rest", List.of());
        kinds.put("stop_s", List.of());
        kinds.put("repeat", List.of("steps"));
        return kinds;
    }

    private static Set<String> keys() {
        Set<String> keys = new TreeSet<>(KINDS.keySet());
        KINDS.values().forEach(keys::addAll);
        return keys;
    }

    /** Returns the steps that were understood. */
    List<LineStep> steps() {
        return steps;
    }

    /** Returns where a step is written, or null when there is no such step. */
    @Nullable
    SourcePosition at(int step) {
        return step >= 0 && step < places.size() ? places.get(step) : null;
    }

    private List<LineStep> read(List<YamlMap> maps) {
        List<LineStep> read = new ArrayList<>();
        for (YamlMap map : maps) {
            LineStep step = step(map);
            if (step != null) {
                read.add(step);
            }
        }
        return List.copyOf(read);
    }

    private static double count(List<LineStep> steps) {
        double count = 0;
        for (LineStep step : steps) {
            count += step instanceof LineStep.Repeat repeat ? repeat.times() * count(repeat.steps()) : 1;
        }
        return count;
    }

    private @Nullable LineStep step(YamlMap map) {
        List<String> said = KINDS.keySet().stream().filter(map::has).toList();
        if (said.isEmpty()) {
            // a key that is none, such as a slip of typing, is told already
            if (!map.strange()) {
                problems.add(ProblemCode.LINE_STEP_UNKNOWN, map.at());
            }
            return null;
        }
        String kind = said.get(0);
        List<String> along = Objects.requireNonNull(KINDS.get(kind));
        boolean mixed = STEP.stream().anyMatch(key -> map.has(key) && !key.equals(kind) && !along.contains(key));
        if (mixed) {
            List<String> all = STEP.stream().filter(map::has).toList();
            problems.add(ProblemCode.LINE_STEP_MIXED, map.at(), String.join(", ", all));
            return null;
        }
        map.require(kind);
        return switch (kind) {
            case "ramp_to_mm_s" -> ramp(map);
            case "reverse_mm" -> reverse(map);
            case "hold_mm" -> of(map.notNegative(kind), LineStep.HoldMm::new);
            case "hold_s" -> of(map.notNegative(kind), LineStep.HoldS::new);
            case "stop_s" -> of(map.notNegative(kind), LineStep.Stop::new);
            case "repeat" -> repeat(map);
            default -> rest(map);
        };
    }

    private interface Made {
        LineStep of(double value);
    }

    private static @Nullable LineStep of(@Nullable Double value, Made made) {
        return value == null ? null : made.of(value);
    }

    private static @Nullable LineStep ramp(YamlMap map) {
        map.require("acceleration_mm_s2");
        Double speed = map.number("ramp_to_mm_s");
        Double acceleration = map.positive("acceleration_mm_s2");
        Double jerk = map.positive("jerk_mm_s3");
        return speed == null || acceleration == null ? null : new LineStep.RampTo(speed, acceleration, jerk);
    }

    private static @Nullable LineStep reverse(YamlMap map) {
        map.require("speed_mm_s");
        map.require("acceleration_mm_s2");
        Double distance = map.positive("reverse_mm");
        Double speed = map.positive("speed_mm_s");
        Double acceleration = map.positive("acceleration_mm_s2");
        return distance == null || speed == null || acceleration == null
                ? null
                : new LineStep.Reverse(distance, speed, acceleration);
    }

    private @Nullable LineStep rest(YamlMap map) {
        int before = problems.count();
        if (map.flag("hold_rest")) {
            return new LineStep.HoldRest();
        }
        if (problems.count() == before) {
            problems.add(ProblemCode.LINE_STEP_UNKNOWN, map.at());
        }
        return null;
    }

    private @Nullable LineStep repeat(YamlMap map) {
        map.require("steps");
        Double times = map.positive("repeat");
        List<LineStep> inner = read(map.maps("steps", STEP));
        if (times != null && (times != Math.rint(times) || times > MOST_REPEATS)) {
            problems.add(
                    ProblemCode.OUT_OF_RANGE,
                    map.at("repeat"),
                    map.textOr("repeat", ""),
                    "1, 2, 3 ... " + MOST_REPEATS);
            return null;
        }
        if (inner.stream().anyMatch(LineStep.HoldRest.class::isInstance)) {
            problems.add(ProblemCode.LINE_TWO_RESTS, map.at("steps"));
            return null;
        }
        return times == null ? null : new LineStep.Repeat((int) Math.round(times), inner);
    }
}
