package slowproof.wording;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import slowproof.metrology.conformity.DecisionRule;
import slowproof.trial.Trial;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.ConditionKey;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Standing;

/**
 * The answer to paste into a mail: per material what holds where with error and uncertainty, and for what it is
 * valid. Says no more than the trial does.
 */
public final class Reply {
    private Reply() {}

    /**
     * Returns the reply, one paragraph, without a line end.
     *
     * @param findings findings
     * @param wording language and units
     */
    public static String of(Findings findings, Wording wording) {
        List<String> sentences = new ArrayList<>();
        List<MaterialAnswer> answers = MaterialAnswer.all(findings, wording);
        sentences.addAll(whyScreeningOnly(answers, findings.trial(), wording));
        for (MaterialAnswer answer : answers) {
            sentences.addAll(answer.sentences());
        }
        sentences.addAll(remarks(findings, wording));
        return String.join(" ", sentences);
    }

    /** Returns why nothing is decided, as a list of one sentence; empty when something is. */
    public static List<String> whyScreeningOnly(List<MaterialAnswer> answers, Trial trial, Wording wording) {
        for (MaterialAnswer answer : answers) {
            if (answer.standing() == Standing.SCREENING_ONLY) {
                return List.of(wording.text(
                        trial.limit() == null ? "screening.no_limit" : "screening.no_reference_uncertainty"));
            }
        }
        return List.of();
    }

    /** Returns what goes with the answers of all materials: an unusual rule, what was left out, for what it is valid. */
    public static List<String> remarks(Findings findings, Wording wording) {
        List<String> sentences = new ArrayList<>();
        if (findings.trial().rule() == DecisionRule.SIMPLE) {
            sentences.add(wording.text("rule.simple"));
        }
        sentences.addAll(exclusions(findings, wording));
        sentences.add(wording.text("validity.reply"));
        return sentences;
    }

    /** Tells that passes were left out, and whether the answers would change with them; empty when none were. */
    private static List<String> exclusions(Findings findings, Wording wording) {
        int left = findings.trial().exclusions().size();
        if (left == 0) {
            return List.of();
        }
        Set<ConditionKey> changed = new HashSet<>();
        for (Condition with : findings.conditionsWithExcluded()) {
            if (!sameAnswerWithout(findings, with)) {
                changed.add(with.key());
            }
        }
        return List.of(
                changed.isEmpty()
                        ? wording.text("exclusions.same", left)
                        : wording.text("exclusions.changed", left, changed.size()));
    }

    private static boolean sameAnswerWithout(Findings findings, Condition with) {
        for (Condition without : findings.conditions()) {
            if (without.key().equals(with.key()) && without.direction() == with.direction()) {
                return without.decision() == with.decision()
                        && without.singlePassDecision() == with.singlePassDecision();
            }
        }
        return false;
    }
}
