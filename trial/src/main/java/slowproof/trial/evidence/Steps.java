package slowproof.trial.evidence;

import java.util.ArrayList;
import java.util.List;
import java.util.NavigableMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import slowproof.trial.evidence.Assessment.Judged;
import slowproof.trial.evidence.TestStep.Why;
import slowproof.trial.findings.Answer;

/** Finds what to test next. Works once and is dropped. */
public final class Steps {
    private static final int CYCLES = 5;
    private static final int MORE_CYCLES = 10;
    private static final int LONGEST_LADDER = 6;

    /** Steps of a ladder: about five speeds a decade, as the series R5 (ISO 3:1973, from memory). */
    private static final double RUNG = 1.6;

    /** Without a fastest speed the ladder goes up this far, so that one speed at its top should hold; our choice. */
    private static final double UP = 6.3;

    private final Inquiry inquiry;
    private final double strokeMm;
    private final List<TestStep> steps = new ArrayList<>();

    private Steps(Inquiry inquiry, double strokeMm) {
        this.inquiry = inquiry;
        this.strokeMm = strokeMm;
    }

    static List<TestStep> of(Inquiry inquiry, Evidence evidence, List<Judged> judged, List<Gap> gaps) {
        Steps found = new Steps(inquiry, evidence.longestMm());
        boolean other = gaps.stream().anyMatch(gap -> gap.kind() == Gap.Kind.OTHER_MATERIAL);
        if (other || judged.isEmpty()) {
            return ladder(inquiry, evidence.longestMm());
        }
        gaps.forEach(gap -> found.fill(gap, evidence));
        if (gaps.stream().noneMatch(gap -> gap.kind() == Gap.Kind.REFERENCE_TOO_COARSE)) {
            // more passes against such a reference would decide nothing
            found.decide(judged);
        }
        return found.steps;
    }

    /**
     * Returns a ladder of speeds for a surface of which nothing is known: the slowest speed asked, the fastest, and
     * speeds between in about equal ratios.
     *
     * @param inquiry what is asked
     * @param strokeMm length of a pass in mm
     */
    public static List<TestStep> ladder(Inquiry inquiry, double strokeMm) {
        Steps found = new Steps(inquiry, strokeMm);
        double slow = inquiry.slowestMmPerS();
        double fast = inquiry.fastestMmPerS() == null || inquiry.upTo() < 2 * slow
                ? PreferredSpeeds.nearest(UP * slow)
                : inquiry.upTo();
        int rungs = (int) Math.min(LONGEST_LADDER - 1, Math.ceil(Math.log(fast / slow) / Math.log(RUNG)));
        for (int i = 0; i <= rungs; i++) {
            double exact = slow * Math.pow(fast / slow, (double) i / rungs);
            double speed = i == 0 ? slow : i == rungs ? fast : PreferredSpeeds.nearest(exact);
            found.add(Why.LADDER, speed, found.acceleration(), strokeMm, CYCLES);
        }
        return found.steps;
    }

    private @Nullable Double acceleration() {
        return inquiry.gentlestMmPerS2() == null ? inquiry.hardestMmPerS2() : inquiry.gentlestMmPerS2();
    }

    private void fill(Gap gap, Evidence evidence) {
        double slow = inquiry.slowestMmPerS();
        switch (gap.kind()) {
            case SLOWER -> {
                add(Why.BEYOND, slow, acceleration(), strokeMm, CYCLES);
                if (evidence.slowestMmPerS() > 2 * slow) {
                    double between = PreferredSpeeds.between(slow, evidence.slowestMmPerS());
                    add(Why.BEYOND, between, acceleration(), strokeMm, CYCLES);
                }
            }
            case FASTER -> add(Why.BEYOND, inquiry.upTo(), acceleration(), strokeMm, CYCLES);
            case GENTLER, HARDER, ACCELERATION_UNKNOWN -> add(Why.ACCELERATION, slow, gap.asked(), strokeMm, CYCLES);
            case LONGER -> add(Why.LENGTH, slow, acceleration(), inquiry.pieceMm() / Distance.TRIED_FACTOR, CYCLES);
            case SHORTER -> add(Why.LENGTH, slow, acceleration(), inquiry.pieceMm(), CYCLES);
            case OTHER_MATERIAL, REFERENCE_UNKNOWN, REFERENCE_TOO_COARSE -> {
                // another material needs a ladder of its own; a better reference or its uncertainty is got, not tested
            }
        }
    }

    private void decide(List<Judged> judged) {
        NavigableMap<Double, Answer> answers = new TreeMap<>();
        judged.forEach(one -> answers.merge(one.point().speedMmPerS(), one.answer(), Steps::worse));
        Double failing = null;
        for (var answer : answers.entrySet()) {
            if (answer.getValue() == Answer.UNDECIDED) {
                add(Why.REPEAT, answer.getKey(), acceleration(), strokeMm, MORE_CYCLES);
            }
            boolean narrow = failing != null && answer.getKey() / failing < PreferredSpeeds.NARROW;
            if (answer.getValue() == Answer.CONFORMS && failing != null && !narrow) {
                double between = PreferredSpeeds.between(failing, answer.getKey());
                add(Why.BETWEEN, between, acceleration(), strokeMm, CYCLES);
            }
            failing = answer.getValue() == Answer.DOES_NOT_CONFORM ? answer.getKey() : null;
        }
    }

    private static Answer worse(Answer one, Answer other) {
        if (one == Answer.DOES_NOT_CONFORM || other == Answer.DOES_NOT_CONFORM) {
            return Answer.DOES_NOT_CONFORM;
        }
        return one == other ? one : Answer.UNDECIDED;
    }

    private void add(Why why, double speed, @Nullable Double acceleration, double stroke, int cycles) {
        steps.add(new TestStep(why, speed, acceleration, stroke, cycles));
    }
}
