package slowproof.wording;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import slowproof.trial.evidence.Assessment;
import slowproof.trial.evidence.Assessment.Judged;
import slowproof.trial.evidence.Evidence.Point;
import slowproof.trial.evidence.Gap;
import slowproof.trial.evidence.Inquiry;
import slowproof.trial.evidence.TestStep;
import slowproof.trial.findings.Answer;
import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;

/** Says what evidence says about an inquiry: for a mail, and in parts for a page. Says no more than the evidence does. */
public final class InquiryReply {
    private InquiryReply() {}

    /**
     * Returns the reply, one paragraph.
     *
     * @param said what the evidence says; null when there is no trial at all
     * @param inquiry what was asked
     * @param trial title of the trial that the evidence comes from, empty without one
     * @param day day of its last entry, as the reader writes days; empty without one
     * @param steps what would be tested next
     * @param wording language and units
     */
    public static String of(
            @Nullable Assessment said,
            Inquiry inquiry,
            String trial,
            String day,
            List<TestStep> steps,
            Wording wording) {
        List<String> sentences = new ArrayList<>();
        sentences.add(asked(inquiry, wording));
        if (said == null) {
            sentences.add(wording.text("evidence.none"));
        } else {
            sentences.addAll(answer(said, trial, day, wording));
            sentences.addAll(gaps(said, wording));
        }
        if (!steps.isEmpty()) {
            sentences.add(wording.text("evidence.next", speeds(steps, wording), time(steps)));
        }
        sentences.add(wording.text("validity.reply"));
        return String.join(" ", sentences);
    }

    /** Returns what was asked, as one sentence. */
    public static String asked(Inquiry inquiry, Wording wording) {
        String material = inquiry.material().isBlank() ? wording.text("evidence.some_material") : inquiry.material();
        String range = inquiry.fastestMmPerS() == null
                ? wording.text("evidence.down_to", Quantity.mmPerS(inquiry.slowestMmPerS()))
                : wording.text(
                        "evidence.from_to", Quantity.mmPerS(inquiry.slowestMmPerS()), Quantity.mmPerS(inquiry.upTo()));
        return wording.text(
                "evidence.asked",
                Quantity.mm(inquiry.toleranceMm()),
                Quantity.mm(inquiry.pieceMm()),
                Wording.shown(material),
                range);
    }

    /** Returns the answer in two or three sentences, gaps apart. */
    public static List<String> answer(Assessment said, String trial, String day, Wording wording) {
        List<String> sentences = new ArrayList<>();
        sentences.add(wording.text(
                "evidence." + said.verdict().key(),
                Wording.shown(trial),
                day,
                new Speeds(wording)
                        .range(said.evidence().slowestMmPerS(), said.evidence().fastestMmPerS())));
        worst(said).ifPresent(one -> sentences.add(figures(one, said, wording)));
        return sentences;
    }

    /**
     * Returns the tested speed that is least sure to hold: one in the asked range where there is any, but for an open
     * answer, which a neighbour of the range may have left open.
     */
    public static Optional<Judged> worst(Assessment said) {
        boolean inside = said.verdict() != Assessment.Verdict.OPEN
                && said.judged().stream().anyMatch(Judged::inside);
        return said.judged().stream().filter(one -> one.inside() || !inside).min(Comparator.comparingDouble(one -> {
            Double probability = one.probability();
            // without repeats nothing is known, which is less than any probability
            return probability == null ? -1 : probability;
        }));
    }

    private static String figures(Judged judged, Assessment said, Wording wording) {
        Point point = judged.point();
        String error = wording.numbers().signed(100 * point.error(), decimals(point));
        String uncertainty = wording.numbers().fixed(100 * point.uncertainty(), decimals(point));
        double pieceMm = said.inquiry().pieceMm();
        int millimetres = Math.max(0, Math.min(4, Numbers.decimalsFor(point.uncertainty() * pieceMm)));
        return wording.text(
                judged.probability() == null ? "evidence.figures_once" : "evidence.figures",
                Quantity.mmPerS(point.speedMmPerS()),
                error,
                uncertainty,
                wording.numbers().signed(point.error() * pieceMm, millimetres),
                Quantity.mm(pieceMm),
                wording.numbers().probabilityPercent(Objects.requireNonNullElse(judged.probability(), 0.0)));
    }

    private static int decimals(Point point) {
        return Math.max(0, Math.min(6, Numbers.decimalsFor(100 * point.uncertainty())));
    }

    /** Returns what is not covered, a sentence each. */
    public static List<String> gaps(Assessment said, Wording wording) {
        List<String> sentences = new ArrayList<>();
        for (Gap gap : said.gaps()) {
            sentences.add(
                    gap.kind() == Gap.Kind.OTHER_MATERIAL
                            ? wording.text(
                                    "gap.other_material",
                                    Wording.shown(said.evidence().material()),
                                    wording.numbers().fixed(100 * Objects.requireNonNullElse(gap.tried(), 0.0), 0))
                            : wording.text(
                                    "gap." + gap.kind().key(), quantity(gap, gap.asked()), quantity(gap, gap.tried())));
        }
        return sentences;
    }

    private static Object quantity(Gap gap, @Nullable Double value) {
        if (value == null) {
            return "";
        }
        return switch (gap.kind()) {
            case SLOWER, FASTER -> Quantity.mmPerS(value);
            case GENTLER, HARDER, ACCELERATION_UNKNOWN -> new Quantity(value, Unit.MM_PER_S2);
            case LONGER, SHORTER, REFERENCE_TOO_COARSE -> Quantity.mm(value);
            case OTHER_MATERIAL, REFERENCE_UNKNOWN -> "";
        };
    }

    /** Returns the answer about one tested speed in one sentence. */
    public static String point(Judged judged, Wording wording) {
        String key = judged.answer() == Answer.CONFORMS
                ? "holds"
                : judged.answer() == Answer.DOES_NOT_CONFORM ? "fails" : "undecided";
        return wording.text("standing." + key);
    }

    /** Returns what to test next, a sentence a step. */
    public static List<String> steps(List<TestStep> steps, Wording wording) {
        return steps.stream()
                .map(step -> wording.text(
                        "step." + step.why().key(),
                        Quantity.mmPerS(step.speedMmPerS()),
                        step.accelerationMmPerS2() == null
                                ? ""
                                : new Quantity(step.accelerationMmPerS2(), Unit.MM_PER_S2),
                        Quantity.mm(step.strokeMm()),
                        step.cycles()))
                .toList();
    }

    /** Returns the time at the bench that steps take, in s. */
    public static Quantity time(List<TestStep> steps) {
        return new Quantity(steps.stream().mapToDouble(TestStep::seconds).sum(), Unit.S);
    }

    private static String speeds(List<TestStep> steps, Wording wording) {
        List<Double> speeds =
                steps.stream().map(TestStep::speedMmPerS).distinct().sorted().toList();
        return new Speeds(wording).list(speeds);
    }
}
