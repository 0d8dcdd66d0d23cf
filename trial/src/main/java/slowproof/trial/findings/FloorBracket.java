package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import slowproof.trial.findings.FloorSpeed.Status;

/**
 * Floor speed of a thin trial: read from the fastest tested speed downwards, as a bracket between two tested
 * speeds. Nothing is said between them. Going down in a fixed order and stopping at the first speed that is not
 * shown to hold keeps the risk of promising too slow a speed at that of one decision (fixed-sequence principle).
 */
final class FloorBracket {
    private FloorBracket() {}

    /**
     * Returns the floor of one material.
     *
     * @param conditions conditions of one material, at least one
     * @param asked the answer that is asked for: about the mean error, or about a single pass
     */
    static FloorSpeed of(List<Condition> conditions, Function<Condition, Answer> asked) {
        NavigableMap<Double, Answer> answers = answers(conditions, asked);
        List<Double> down = new ArrayList<>(answers.descendingKeySet());
        int held = 0;
        while (held < down.size() && answers.get(down.get(held)) == Answer.CONFORMS) {
            held++;
        }
        Double safe = held == 0 ? null : down.get(held - 1);
        List<Double> undecided = answers.entrySet().stream()
                .filter(entry -> entry.getValue() == Answer.UNDECIDED || entry.getValue() == Answer.SCREENING_ONLY)
                .map(Map.Entry::getKey)
                .toList();
        if (held == down.size()) {
            return result(Status.HOLDS_THROUGHOUT, null, null, safe, answers, undecided);
        }
        Double failing = fastestFailing(answers, safe);
        if (safe != null) {
            return failing == null
                    ? result(Status.UNDECIDED, null, safe, safe, answers, undecided)
                    : result(Status.BRACKET, failing, safe, safe, answers, undecided);
        }
        boolean fastestFails = answers.get(down.get(0)) == Answer.DOES_NOT_CONFORM;
        if (fastestFails && answers.containsValue(Answer.CONFORMS)) {
            List<Double> band = band(down, answers);
            return result(Status.HOLDS_IN_A_BAND, band.get(band.size() - 1), band.get(0), null, answers, undecided);
        }
        if (answers.values().stream().allMatch(answer -> answer == Answer.DOES_NOT_CONFORM)) {
            return result(Status.DOES_NOT_HOLD, null, null, null, answers, undecided);
        }
        return result(Status.UNDECIDED, failing, null, null, answers, undecided);
    }

    /** At each speed the least favourable answer over set-ups and accelerations counts. */
    static NavigableMap<Double, Answer> answers(List<Condition> conditions, Function<Condition, Answer> asked) {
        NavigableMap<Double, Answer> answers = new TreeMap<>();
        for (Condition condition : conditions) {
            answers.merge(
                    condition.key().speedMmPerS(),
                    asked.apply(condition),
                    (one, other) -> Verdict.worse(new Verdict(null, one), new Verdict(null, other))
                            .answer());
        }
        return answers;
    }

    private static @Nullable Double fastestFailing(NavigableMap<Double, Answer> answers, @Nullable Double below) {
        NavigableMap<Double, Answer> slower = below == null ? answers : answers.headMap(below, false);
        return slower.descendingMap().entrySet().stream()
                .filter(entry -> entry.getValue() == Answer.DOES_NOT_CONFORM)
                .map(Map.Entry::getKey)
                .findFirst()
                .orElse(null);
    }

    private static List<Double> band(List<Double> down, Map<Double, Answer> answers) {
        List<Double> band = new ArrayList<>();
        for (Double speed : down) {
            if (answers.get(speed) == Answer.CONFORMS) {
                band.add(speed);
            } else if (!band.isEmpty()) {
                break;
            }
        }
        return band;
    }

    private static FloorSpeed result(
            Status status,
            @Nullable Double low,
            @Nullable Double high,
            @Nullable Double safe,
            NavigableMap<Double, Answer> answers,
            List<Double> undecided) {
        Map<String, ReasonCode> reasons = new TreeMap<>();
        reasons.put("estimate_mm_s", ReasonCode.THIN_TRIAL);
        reasons.put("confidence_pct", ReasonCode.THIN_TRIAL);
        reasons.put("proven_mm_s", ReasonCode.THIN_TRIAL);
        if (low == null) {
            reasons.put("low_mm_s", ReasonCode.THIN_TRIAL);
        }
        if (high == null) {
            reasons.put("high_mm_s", ReasonCode.THIN_TRIAL);
        }
        if (safe == null) {
            reasons.put("safe_mm_s", ReasonCode.NOTHING_HOLDS);
        }
        return new FloorSpeed(status, null, low, high, safe, null, answers.firstKey(), null, undecided, reasons);
    }
}
