package slowproof.trial.evidence;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.conformity.Conformance;
import slowproof.metrology.conformity.DecisionRule;
import slowproof.trial.evidence.Evidence.Point;
import slowproof.trial.findings.Answer;

/**
 * What evidence says about an inquiry. Every tested speed from the next one below the slowest asked to the next one
 * above the fastest asked is judged by the probability that one pass keeps the share of the length which the tolerance
 * permits (JCGM 106:2012 clause 7, as for the limit of a trial); a piece whose speeds all keep it keeps it as a whole.
 *
 * @param inquiry what was asked
 * @param evidence what there is
 * @param verdict the answer
 * @param judged tested speeds that bear on it, speed ascending
 * @param gaps what is not covered
 * @param steps what to test next; none when it holds
 */
public record Assessment(
        Inquiry inquiry,
        Evidence evidence,
        Verdict verdict,
        List<Judged> judged,
        List<Gap> gaps,
        List<TestStep> steps) {
    /** With these a failing speed is no answer either. */
    private static final Set<Gap.Kind> SAYING_NOTHING =
            EnumSet.of(Gap.Kind.OTHER_MATERIAL, Gap.Kind.REFERENCE_UNKNOWN, Gap.Kind.REFERENCE_TOO_COARSE);

    /** Copies the lists. */
    public Assessment {
        judged = List.copyOf(judged);
        gaps = List.copyOf(gaps);
        steps = List.copyOf(steps);
    }

    /** Answers. The key of each sentence in the message bundles is {@code evidence.} and {@link #key()}. */
    public enum Verdict {
        /** Covered, and every tested speed that bears on it holds. */
        HOLDS,
        /** A tested speed in the asked range does not hold on that surface. */
        DOES_NOT_HOLD,
        /** Covered, but not decided. */
        OPEN,
        /** Not covered. */
        NOT_COVERED;

        /** Returns the word in message bundles and archives, lower_snake_case. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * A tested speed that bears on the answer.
     *
     * @param point its result
     * @param probability probability that one pass keeps the tolerance; null when nothing was repeated
     * @param answer the answer about one pass, never screening only
     * @param inside whether the speed lies in the asked range itself
     */
    public record Judged(Point point, @Nullable Double probability, Answer answer, boolean inside) {}

    /** Returns what evidence says about an inquiry. */
    public static Assessment of(Inquiry inquiry, Evidence evidence) {
        List<Judged> judged = judged(inquiry, evidence);
        List<Gap> gaps = Gaps.of(inquiry, evidence);
        Verdict verdict = verdict(judged, gaps);
        return new Assessment(inquiry, evidence, verdict, judged, gaps, Steps.of(inquiry, evidence, judged, gaps));
    }

    private static List<Judged> judged(Inquiry inquiry, Evidence evidence) {
        TreeSet<Double> speeds = new TreeSet<>();
        evidence.points().forEach(point -> speeds.add(point.speedMmPerS()));
        Double below = speeds.floor(inquiry.slowestMmPerS());
        Double above = speeds.ceiling(inquiry.upTo());
        double from = below == null ? inquiry.slowestMmPerS() : below;
        double to = above == null ? inquiry.upTo() : above;
        List<Judged> judged = new ArrayList<>();
        for (Point point : evidence.points()) {
            double speed = point.speedMmPerS();
            if (speed >= from && speed <= to) {
                judged.add(judge(point, inquiry));
            }
        }
        judged.sort((one, other) ->
                Double.compare(one.point().speedMmPerS(), other.point().speedMmPerS()));
        return judged;
    }

    private static Judged judge(Point point, Inquiry inquiry) {
        boolean inside = point.speedMmPerS() >= inquiry.slowestMmPerS() && point.speedMmPerS() <= inquiry.upTo();
        Double uncertainty = point.passUncertainty();
        if (uncertainty == null) {
            return new Judged(point, null, Answer.UNDECIDED, inside);
        }
        double probability =
                Conformance.probability(point.error(), uncertainty, point.passFreedom(), inquiry.permitted());
        Double reference = point.referenceUncertainty();
        if (reference != null && reference > inquiry.permitted()) {
            // as for the limit of a trial: a reference coarser than what is asked decides nothing
            return new Judged(point, probability, Answer.UNDECIDED, inside);
        }
        Answer answer = probability >= DecisionRule.ACCEPTING_PROBABILITY
                ? Answer.CONFORMS
                : probability <= DecisionRule.REJECTING_PROBABILITY ? Answer.DOES_NOT_CONFORM : Answer.UNDECIDED;
        return new Judged(point, probability, answer, inside);
    }

    private static Verdict verdict(List<Judged> judged, List<Gap> gaps) {
        boolean speaksOfIt = gaps.stream().noneMatch(gap -> SAYING_NOTHING.contains(gap.kind()));
        boolean fails = judged.stream().anyMatch(one -> one.inside() && one.answer() == Answer.DOES_NOT_CONFORM);
        if (speaksOfIt && fails) {
            return Verdict.DOES_NOT_HOLD;
        }
        if (!gaps.isEmpty() || judged.isEmpty()) {
            return Verdict.NOT_COVERED;
        }
        return judged.stream().allMatch(one -> one.answer() == Answer.CONFORMS) ? Verdict.HOLDS : Verdict.OPEN;
    }
}
