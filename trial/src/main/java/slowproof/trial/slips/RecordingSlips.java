package slowproof.trial.slips;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Predicate;
import slowproof.trial.RecordedPass;
import slowproof.trial.findings.Flag;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.Quantity;

/**
 * Mistakes of sign, scale and speed in recordings. Nobody types a log, so single odd passes are data; only what
 * nearly all passes of a recording share is asked about, and a programmed speed that they did not run at.
 */
final class RecordingSlips {
    /** Ratios that a wrong choice between x1, x2 and x4 leaves. */
    private static final double[] EVALUATIONS = {4, 2, 0.5, 0.25};

    /** A wrong setting multiplies exactly; the rest is the sensor's own error. */
    private static final double TOLERANCE = 0.03;

    /** Share of the passes that must agree: a sensor that fails at some speed does not fail alike in nearly all passes. */
    private static final double NEARLY_ALL = 0.8;

    /** A drive that misses its speed by more than this factor was not set to it; the plateau is known far better. */
    private static final double SPEED_FACTOR = 1.5;

    private RecordingSlips() {}

    static List<InputProblem> questions(List<RecordedPass> passes) {
        Map<String, List<RecordedPass>> recordings = new LinkedHashMap<>();
        for (RecordedPass pass : passes) {
            recordings
                    .computeIfAbsent(pass.recording(), name -> new ArrayList<>())
                    .add(pass);
        }
        List<InputProblem> questions = new ArrayList<>();
        recordings.forEach((name, own) -> {
            int before = questions.size();
            askRatio(name, own, questions);
            if (questions.size() == before) {
                askSlope(name, own, questions);
            }
            askSpeed(name, own, questions);
        });
        return questions;
    }

    /** Asks about an indication that is far from the reference in nearly all passes without a ratio that explains it. */
    private static void askSlope(String name, List<RecordedPass> passes, List<InputProblem> questions) {
        SourcePosition at = SourcePosition.ofFile(name);
        if (nearlyAll(passes, pass -> Ratios.near(Math.abs(ratio(pass)), 1))) {
            // a counter that cannot count down runs on while the reference returns
            if (passes.stream().anyMatch(pass -> ratio(pass) > 0)
                    && passes.stream().anyMatch(pass -> ratio(pass) < 0)
                    && nearlyAll(passes, pass -> pass.indicationMm() > 0)) {
                questions.add(InputProblem.of(ProblemCode.QUESTION_LOG_RETURN_SIGN, at));
            }
        } else if (nearlyAll(passes, pass -> !Ratios.ordinary(ratio(pass)))) {
            questions.add(InputProblem.of(ProblemCode.QUESTION_LOG_SLOPE, at, middle(passes)));
        }
    }

    /** Asks about a programmed speed that more than a few plateaus are far from. */
    private static void askSpeed(String name, List<RecordedPass> passes, List<InputProblem> questions) {
        List<RecordedPass> even = passes.stream()
                .filter(pass ->
                        pass.programmedSpeedMmPerS() != null && !pass.flags().contains(Flag.NO_PLATEAU))
                .toList();
        if (even.isEmpty() || nearlyAll(even, RecordingSlips::ranAsProgrammed)) {
            return;
        }
        double[] speeds = even.stream()
                .mapToDouble(RecordedPass::plateauSpeedMmPerS)
                .sorted()
                .toArray();
        questions.add(InputProblem.of(
                ProblemCode.QUESTION_LOG_SPEED,
                SourcePosition.ofFile(name),
                Quantity.mmPerS(Objects.requireNonNull(even.get(0).programmedSpeedMmPerS())),
                Quantity.mmPerS(speeds[0]),
                Quantity.mmPerS(speeds[speeds.length - 1])));
    }

    private static boolean ranAsProgrammed(RecordedPass pass) {
        double ratio = pass.plateauSpeedMmPerS() / Objects.requireNonNull(pass.programmedSpeedMmPerS());
        return ratio < SPEED_FACTOR && ratio > 1 / SPEED_FACTOR;
    }

    private static boolean nearlyAll(List<RecordedPass> passes, Predicate<RecordedPass> condition) {
        return passes.stream().filter(condition).count() >= NEARLY_ALL * passes.size();
    }

    private static double ratio(RecordedPass pass) {
        return pass.indicationMm() / pass.referenceMm();
    }

    private static double middle(List<RecordedPass> passes) {
        double[] ratios =
                passes.stream().mapToDouble(RecordingSlips::ratio).sorted().toArray();
        return ratios[ratios.length / 2];
    }

    private static void askRatio(String name, List<RecordedPass> passes, List<InputProblem> questions) {
        double middle = middle(passes);
        if (!nearlyAll(passes, pass -> Math.abs(ratio(pass) / middle - 1) <= TOLERANCE)) {
            return;
        }
        SourcePosition at = SourcePosition.ofFile(name);
        double size = Math.abs(middle);
        double unit = Ratios.unit(size);
        double evaluation = evaluation(size);
        if (unit != 0) {
            questions.add(InputProblem.of(ProblemCode.QUESTION_LOG_SCALE, at, unit));
        } else if (evaluation != 0) {
            questions.add(InputProblem.of(ProblemCode.QUESTION_LOG_EVALUATION, at, evaluation));
        }
        if (middle < 0 && (unit != 0 || evaluation != 0 || Ratios.near(middle, -1))) {
            questions.add(InputProblem.of(ProblemCode.QUESTION_LOG_SIGN, at));
        }
    }

    private static double evaluation(double ratio) {
        for (double candidate : EVALUATIONS) {
            if (Math.abs(ratio / candidate - 1) <= TOLERANCE) {
                return candidate;
            }
        }
        return 0;
    }
}
