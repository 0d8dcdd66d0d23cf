package slowproof.app.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.archive.sheet.NextMove;
import slowproof.trial.Trial;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Standing;
import slowproof.trial.note.Quantity;
import slowproof.wording.MaterialAnswer;
import slowproof.wording.Wording;

/** Puts results in plain words. Decides nothing: every answer comes from the findings. */
public final class Answers {
    private Answers() {}

    /** Returns one line a material: where it holds, where it fails, what nobody knows. */
    static List<Line> floors(Findings findings, Wording wording) {
        List<Line> lines = new ArrayList<>();
        for (MaterialAnswer answer : MaterialAnswer.all(findings, wording)) {
            List<String> sentences = answer.sentences();
            String detail = String.join(" ", sentences.subList(1, sentences.size()));
            lines.add(new Line(answer.material().material(), sentences.get(0), detail, style(answer.standing())));
        }
        return lines;
    }

    static String style(Standing standing) {
        return switch (standing) {
            case HOLDS -> "good";
            case FAILS -> "bad";
            case PARTLY, UNDECIDED -> "open";
            case SCREENING_ONLY -> "none";
        };
    }

    /**
     * Returns the answer about one condition in one sentence. Where the answers about the mean and about one pass
     * differ, it leads with the pass, which is what a customer cuts.
     */
    public static String condition(Condition condition, Trial trial, Wording wording) {
        if (condition.decision() == Answer.SCREENING_ONLY) {
            return wording.text("verdict.screening");
        }
        Answer one = condition.singlePassDecision();
        boolean differ = one != condition.decision();
        Answer leading = differ ? one : condition.decision();
        Double probability = differ ? condition.singlePassProbability() : condition.conformanceProbability();
        String percent = wording.numbers().probabilityPercent(Objects.requireNonNullElse(probability, 0.0));
        String key = "verdict." + (differ ? "pass." : "mean.") + leading.key().replace(' ', '_');
        String sentence = wording.text(key, percent, limit(condition, wording));
        return differ
                ? sentence + " " + wording.text("verdict.but_mean", wording.answer(condition.decision()))
                : sentence;
    }

    private static String limit(Condition condition, Wording wording) {
        Double limit = condition.limit();
        return limit == null ? "" : wording.numbers().plain(100 * limit, 3);
    }

    /** Returns what keeps a trial from a decision, as keys: limit, reference, acceleration; empty when nothing does. */
    public static List<String> missing(Trial trial) {
        List<String> missing = new ArrayList<>();
        if (trial.limit() == null) {
            missing.add("limit");
        }
        if (!trial.reference().hasUncertainty()) {
            missing.add("reference");
        }
        if (trial.series().stream().allMatch(series -> series.accelerationMmPerS2() == null)) {
            missing.add("acceleration");
        }
        return missing;
    }

    /** Returns what to run next as a sentence. */
    public static String next(NextMove next, Wording wording) {
        List<Object> arguments = new ArrayList<>();
        arguments.add(quantity(next.speedMmPerS()));
        arguments.add(quantity(next.lowMmPerS()));
        arguments.add(quantity(next.highMmPerS()));
        arguments.add(Objects.requireNonNullElse(next.passes(), 0));
        return wording.text("next." + next.code().key(), arguments.toArray());
    }

    private static Quantity quantity(@Nullable Double speed) {
        return Quantity.mmPerS(Objects.requireNonNullElse(speed, 0.0));
    }

    /**
     * A line of an answer.
     *
     * @param about what it speaks of
     * @param sentence what holds where
     * @param detail the figures behind it, empty for none
     * @param style class name of the style sheet
     */
    public record Line(String about, String sentence, String detail, String style) {}
}
