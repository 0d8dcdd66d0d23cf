package slowproof.wording;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Flag;
import slowproof.trial.findings.FloorSpeed;
import slowproof.trial.findings.Material;
import slowproof.trial.findings.Standing;
import slowproof.trial.note.Quantity;

/**
 * What is said of one material in plain words. Leads with the single pass, because that is what a customer cuts;
 * the mean error is named beside it where it gets another answer.
 */
public final class MaterialAnswer {
    private final Findings findings;
    private final Material material;
    private final Wording wording;
    private final Speeds speeds;
    private final NavigableMap<Double, Answer> single;
    private final NavigableMap<Double, Answer> mean;
    private final Condition deciding;

    /** Creates the answer of a material. */
    public MaterialAnswer(Findings findings, Material material, Wording wording) {
        this.findings = findings;
        this.material = material;
        this.wording = wording;
        this.speeds = new Speeds(wording);
        this.single = findings.singlePassAnswers(material.material());
        this.mean = findings.meanAnswers(material.material());
        this.deciding = deciding(findings.leading(material.material()));
    }

    /** Returns the answers of all materials in file order. */
    public static List<MaterialAnswer> all(Findings findings, Wording wording) {
        List<MaterialAnswer> answers = new ArrayList<>();
        for (Material material : findings.materials()) {
            answers.add(new MaterialAnswer(findings, material, wording));
        }
        return answers;
    }

    /**
     * The condition on which the answer turns, by the answer about a single pass: the fastest that is undecided;
     * else the slowest that conforms; else the fastest of all. Among equal speeds the one whose passes are least
     * probable to lie inside.
     */
    private static Condition deciding(List<Condition> ascending) {
        Condition undecided = null;
        Condition holding = null;
        for (Condition condition : ascending) {
            if (condition.singlePassDecision() == Answer.UNDECIDED && !beforeAtSameSpeed(undecided, condition)) {
                undecided = condition;
            }
            if (condition.singlePassDecision() == Answer.CONFORMS
                    && (holding == null || beforeAtSameSpeed(condition, holding))) {
                holding = condition;
            }
        }
        if (undecided != null) {
            return undecided;
        }
        return holding != null ? holding : ascending.get(ascending.size() - 1);
    }

    private static boolean beforeAtSameSpeed(@Nullable Condition one, Condition other) {
        return one != null
                && one.key().speedMmPerS() == other.key().speedMmPerS()
                && probability(one) < probability(other);
    }

    private static double probability(Condition condition) {
        Double single = condition.singlePassProbability();
        return single == null ? 0 : single;
    }

    /** Returns the condition on which the answer turns. */
    public Condition deciding() {
        return deciding;
    }

    /** Returns the material. */
    public Material material() {
        return material;
    }

    /** Returns true when the mean error and a single pass get different answers somewhere. */
    public boolean meanDiffers() {
        return !single.equals(mean);
    }

    /** Returns where the material stands, by the answer about a single pass. */
    public Standing standing() {
        return Standing.of(single.values());
    }

    /** Returns the answer in one or two sentences: what holds where; the figures behind it and what is thin in them. */
    public List<String> sentences() {
        if (standing() == Standing.SCREENING_ONLY) {
            return List.of(screening() + ".");
        }
        String floor =
                meanDiffers() ? floor() + wording.text("answer_text.mean_differs", parts(whereTheyDiffer())) : floor();
        return List.of(floor + ".", figures() + ".");
    }

    private NavigableMap<Double, Answer> whereTheyDiffer() {
        NavigableMap<Double, Answer> differing = new TreeMap<>(mean);
        differing.entrySet().removeIf(entry -> entry.getValue() == single.get(entry.getKey()));
        return differing;
    }

    private String floor() {
        FloorSpeed floor = meanDiffers() ? findings.singlePassFloor(material.material()) : material.floor();
        String subject = wording.text(meanDiffers() ? "subject.single" : "subject.sensor");
        String name = material.material();
        double slowest = single.firstKey();
        double fastest = single.lastKey();
        return switch (floor.status()) {
            case HOLDS_THROUGHOUT ->
                slowest == fastest
                        ? wording.text("floor.holds_at_the_one", name, subject, speeds.one(slowest))
                        : wording.text(
                                "floor.holds_throughout",
                                name,
                                subject,
                                speeds.range(slowest, fastest),
                                speeds.one(slowest));
            case BRACKET -> bracket(floor, name, subject);
            case HOLDS_IN_A_BAND ->
                wording.text(
                        "floor.holds_in_a_band",
                        name,
                        subject,
                        speeds.range(required(floor.low()), required(floor.high())),
                        speeds.one(fastest));
            case DOES_NOT_HOLD ->
                wording.text("floor.does_not_hold", name, subject, speeds.list(List.copyOf(single.keySet()), single));
            case FOUND -> found(floor, name, subject) + otherStrokes(required(floor.estimate()));
            case UNDECIDED ->
                wording.text(
                        "floor.undecided",
                        name,
                        wording.text(meanDiffers() ? "subject_for.single" : "subject_for.sensor"),
                        parts(single));
        };
    }

    /** The digits follow the interval; an end beyond the tested speeds is said to be there. */
    private String found(FloorSpeed floor, String name, String subject) {
        double estimate = required(floor.estimate());
        Double low = floor.low();
        Double high = floor.high();
        double width = (high == null ? estimate : high) - (low == null ? estimate : low);
        String from = speeds.rounded(estimate, width / 2);
        if (low != null && high != null) {
            return wording.text("floor.found", name, subject, from, speeds.rounded(low, high, width / 2));
        }
        if (low == null && high == null) {
            return wording.text("floor.found_open", name, subject, from);
        }
        return low == null
                ? wording.text("floor.found_open_low", name, subject, from, speeds.rounded(required(high), width / 2))
                : wording.text("floor.found_open_high", name, subject, from, speeds.rounded(low, width / 2));
    }

    /**
     * The floor is judged for one length. A shorter stroke has its own limit and a start loss that weighs more, so it can
     * fail above the floor; then that is said.
     */
    private String otherStrokes(double floorMmPerS) {
        Double judged = findings.judgedAtMm(material.material());
        TreeMap<Double, TreeSet<Double>> failing = new TreeMap<>();
        for (Condition condition : findings.leading(material.material())) {
            if (condition.key().speedMmPerS() > floorMmPerS
                    && condition.singlePassDecision() == Answer.DOES_NOT_CONFORM) {
                failing.computeIfAbsent((double) Math.round(condition.meanLengthMm()), length -> new TreeSet<>())
                        .add(condition.key().speedMmPerS());
            }
        }
        if (judged == null || failing.isEmpty()) {
            return "";
        }
        return wording.text(
                "floor.judged_at",
                Quantity.mm((double) Math.round(judged)),
                Quantity.mm(failing.firstKey()),
                speeds.list(List.copyOf(failing.firstEntry().getValue()), single));
    }

    private String bracket(FloorSpeed floor, String name, String subject) {
        double holds = required(floor.high());
        double fails = required(floor.low());
        String held = speeds.range(holds, single.lastKey());
        String error = errorAt(fails);
        NavigableMap<Double, Answer> between = single.subMap(fails, false, holds, false);
        return between.isEmpty()
                ? wording.text("floor.bracket", name, subject, held, speeds.one(fails), error)
                : wording.text(
                        "floor.bracket_with_undecided",
                        name,
                        subject,
                        held,
                        speeds.one(fails),
                        error,
                        speeds.list(List.copyOf(between.keySet()), single));
    }

    /** Returns the largest mean error at a speed, in percent. */
    private String errorAt(double speedMmPerS) {
        Condition largest = deciding;
        for (Condition condition : findings.leading(material.material())) {
            boolean here = condition.key().speedMmPerS() == speedMmPerS;
            boolean first = largest.key().speedMmPerS() != speedMmPerS;
            if (here && (first || Math.abs(condition.meanError()) > Math.abs(largest.meanError()))) {
                largest = condition;
            }
        }
        return new Figures(largest, wording).errorPercent();
    }

    private static double required(@Nullable Double value) {
        return value == null ? Double.NaN : value;
    }

    /** Returns "holds the limit at 250 mm/s and is undecided at 63 mm/s", fastest first. */
    private String parts(NavigableMap<Double, Answer> answers) {
        List<Answer> met = new ArrayList<>();
        for (Answer answer : answers.descendingMap().values()) {
            if (!met.contains(answer)) {
                met.add(answer);
            }
        }
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < met.size(); i++) {
            String part = wording.text(
                    "part." + met.get(i).name().toLowerCase(Locale.ROOT),
                    speeds.list(Speeds.with(met.get(i), answers), single));
            text.append(i == 0 ? "" : i < met.size() - 1 ? ", " : wording.text("parts.and"))
                    .append(part);
        }
        return text.toString();
    }

    private String figures() {
        Figures figures = new Figures(deciding, wording);
        String sentence = wording.text(
                "figures.error",
                speeds.one(deciding.key().speedMmPerS()),
                deciding.passes(),
                figures.errorPercent(),
                figures.uncertaintyPercent(),
                figures.coverageFactor(),
                figures.errorLength(),
                figures.length(),
                figures.limitPercent());
        if (deciding.singlePassProbability() != null) {
            sentence +=
                    wording.text("figures.probabilities", figures.singlePassProbability(), figures.meanProbability());
        }
        return sentence + thin();
    }

    /** Returns what is thin in the figures, as clauses to append; empty when nothing is. */
    private String thin() {
        StringBuilder text = new StringBuilder();
        if (deciding.flags().contains(Flag.REFERENCE_TOO_COARSE)) {
            text.append(wording.text("thin.reference_too_coarse"));
        }
        if (deciding.flags().contains(Flag.NO_REPEATABILITY)) {
            text.append(wording.text("thin.nothing_repeated"));
        } else if (deciding.flags().contains(Flag.POOLED_REPEATABILITY)) {
            text.append(wording.text("thin.pooled"));
        } else if (deciding.flags().contains(Flag.FEW_REPEATS)) {
            text.append(wording.text("thin.few_repeats", deciding.passes()));
        }
        if (deciding.flags().contains(Flag.SCATTER_BELOW_RESOLUTION)) {
            text.append(wording.text("thin.scatter_below_resolution"));
        }
        return text.toString();
    }

    /** Without a decision: what was read, speed by speed. */
    private String screening() {
        StringBuilder text = new StringBuilder();
        for (Condition condition : findings.leading(material.material())) {
            Figures figures = new Figures(condition, wording);
            String error = wording.text(
                    "screening.error",
                    figures.errorPercent(),
                    speeds.one(condition.key().speedMmPerS()),
                    condition.passes());
            text.insert(0, text.isEmpty() ? error : error + ", ");
        }
        return wording.text(
                "screening.read", material.material(), text.toString(), new Figures(deciding, wording).limitPercent());
    }
}
