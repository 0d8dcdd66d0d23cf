package slowproof.app.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.Condition;

/**
 * The strip of speeds of one material, logarithmic: which speeds were tested, which hold, which fail, and what
 * nobody knows between them. Fast is on the right.
 *
 * @param marks tested speeds, ascending
 * @param zones stretches of speed, ascending
 */
public record Strip(List<Mark> marks, List<Zone> zones) {
    /** Width of the drawing. */
    public static final double WIDTH = 640;

    private static final double MARGIN = 40;
    /** The strip shows this much beyond the tested speeds, where nothing was tested. */
    private static final double BEYOND = 1.6;

    /**
     * A tested speed.
     *
     * @param x where
     * @param speedMmPerS speed in mm/s
     * @param answer the least favourable answer at that speed
     */
    public record Mark(double x, double speedMmPerS, Answer answer) {}

    /**
     * A stretch of speed.
     *
     * @param x where it begins
     * @param width how wide it is
     * @param kind good, bad, unknown or untested
     */
    public record Zone(double x, double width, String kind) {}

    /** Copies the lists. */
    public Strip {
        marks = List.copyOf(marks);
        zones = List.copyOf(zones);
    }

    static Strip of(List<Condition> leading) {
        TreeMap<Double, Answer> answers = new TreeMap<>();
        for (Condition condition : leading) {
            answers.merge(condition.key().speedMmPerS(), condition.decision(), Strip::worse);
        }
        if (answers.isEmpty()) {
            return new Strip(List.of(), List.of());
        }
        double low = Math.log(answers.firstKey() / BEYOND);
        double high = Math.log(answers.lastKey() * BEYOND);
        List<Mark> marks = new ArrayList<>();
        for (Map.Entry<Double, Answer> tested : answers.entrySet()) {
            double x = MARGIN + (Math.log(tested.getKey()) - low) / (high - low) * (WIDTH - 2 * MARGIN);
            marks.add(new Mark(x, tested.getKey(), tested.getValue()));
        }
        return new Strip(marks, zones(marks));
    }

    private static List<Zone> zones(List<Mark> marks) {
        List<Zone> zones = new ArrayList<>();
        add(zones, MARGIN, marks.get(0).x(), "untested");
        for (int i = 1; i < marks.size(); i++) {
            Mark slow = marks.get(i - 1);
            Mark fast = marks.get(i);
            boolean alike = slow.answer() == fast.answer();
            String kind = alike && slow.answer() == Answer.CONFORMS
                    ? "good"
                    : alike && slow.answer() == Answer.DOES_NOT_CONFORM ? "bad" : "unknown";
            add(zones, slow.x(), fast.x(), kind);
        }
        add(zones, marks.get(marks.size() - 1).x(), WIDTH - MARGIN, "untested");
        return zones;
    }

    private static void add(List<Zone> zones, double from, double to, String kind) {
        zones.add(new Zone(from, to - from, kind));
    }

    private static Answer worse(Answer one, Answer other) {
        List<Answer> order = List.of(Answer.DOES_NOT_CONFORM, Answer.UNDECIDED, Answer.SCREENING_ONLY, Answer.CONFORMS);
        return order.indexOf(one) < order.indexOf(other) ? one : other;
    }
}
