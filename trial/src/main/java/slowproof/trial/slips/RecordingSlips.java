package slowproof.trial.slips;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.trial.RecordedPass;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;

/**
 * Mistakes of sign and scale in recordings. Nobody types a log, so single odd passes are data; only a ratio that
 * nearly all passes of a recording share, and that a wrong setting explains, is asked about.
 */
final class RecordingSlips {
    /** Ratios that a wrong choice between x1, x2 and x4 leaves. */
    private static final double[] EVALUATIONS = {4, 2, 0.5, 0.25};

    /** A wrong setting multiplies exactly; the rest is the sensor's own error. */
    private static final double TOLERANCE = 0.03;

    /** Share of the passes that must agree: a sensor that fails at some speed does not fail alike in nearly all passes. */
    private static final double NEARLY_ALL = 0.8;

    private RecordingSlips() {}

    static List<InputProblem> questions(List<RecordedPass> passes) {
        Map<String, List<RecordedPass>> recordings = new LinkedHashMap<>();
        for (RecordedPass pass : passes) {
            recordings
                    .computeIfAbsent(pass.recording(), name -> new ArrayList<>())
                    .add(pass);
        }
        List<InputProblem> questions = new ArrayList<>();
        recordings.forEach((name, own) -> ask(name, own, questions));
        return questions;
    }

    private static void ask(String name, List<RecordedPass> passes, List<InputProblem> questions) {
        double[] ratios = passes.stream()
                .mapToDouble(pass -> pass.indicationMm() / pass.referenceMm())
                .sorted()
                .toArray();
        double middle = ratios[ratios.length / 2];
        long alike = Arrays.stream(ratios)
                .filter(ratio -> Math.abs(ratio / middle - 1) <= TOLERANCE)
                .count();
        if (!(alike >= NEARLY_ALL * ratios.length)) {
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
