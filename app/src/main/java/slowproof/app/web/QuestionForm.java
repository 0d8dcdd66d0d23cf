package slowproof.app.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import slowproof.app.Days;
import slowproof.archive.desk.Question;
import slowproof.archive.typed.DecimalMark;
import slowproof.archive.typed.NotUnderstoodException;
import slowproof.archive.typed.Typed;
import slowproof.trial.evidence.Inquiry;

/**
 * A question as it is typed.
 *
 * @param fields what was typed, by name of the field; empty ones are absent
 * @param inquiry what it means; null while something is missing or not understood
 * @param problems what is missing or not understood
 */
public record QuestionForm(
        Map<String, String> fields, @Nullable Inquiry inquiry, List<Problem> problems) {
    private static final int LONGEST = 2000;

    /** Copies the collections. */
    public QuestionForm {
        fields = Map.copyOf(fields);
        problems = List.copyOf(problems);
    }

    /** An empty form. */
    static QuestionForm empty() {
        return new QuestionForm(Map.of(), null, List.of());
    }

    /** Returns what a form or an address carries; the decimal mark is that of the reader's language. */
    static QuestionForm sent(Visit visit, Function<String, @Nullable String> sent) {
        Map<String, String> fields = new LinkedHashMap<>();
        for (String name : Question.FIELDS) {
            String text = sent.apply(name);
            if (text != null && !text.isBlank() && !name.equals("mark")) {
                String unix = text.replace("\r\n", "\n").strip();
                fields.put(name, unix.length() > LONGEST ? unix.substring(0, LONGEST) : unix);
            }
        }
        fields.put("mark", visit.typed("").mark().key());
        return of(fields, visit);
    }

    /** Returns a question that was kept. */
    static QuestionForm of(Map<String, String> fields, Visit visit) {
        Reading reading = new Reading(fields, visit);
        return new QuestionForm(fields, reading.inquiry(), reading.problems);
    }

    /** Returns what was typed into a field, empty for nothing. */
    public String field(String name) {
        return fields.getOrDefault(name, "");
    }

    /** Returns true when nothing but the decimal mark is there. */
    public boolean isEmpty() {
        return fields.keySet().stream().allMatch(name -> name.equals("mark"));
    }

    /** Reads the fields and collects what is wrong with them; used once. */
    private static final class Reading {
        private final Map<String, String> fields;
        private final Visit visit;
        private final List<Problem> problems = new ArrayList<>();

        Reading(Map<String, String> fields, Visit visit) {
            this.fields = fields;
            this.visit = visit;
        }

        private interface Meaning {
            double of(Typed typed) throws NotUnderstoodException;
        }

        @Nullable
        Inquiry inquiry() {
            Double slowest = number("slowest", true, Typed::speedMmPerS);
            Double fastest = number("fastest", false, Typed::speedMmPerS);
            Double gentlest = number("gentlest", false, Reading::acceleration);
            Double hardest = number("hardest", false, Reading::acceleration);
            Double piece = number("piece", true, Reading::length);
            Double tolerance = number("tolerance", true, Reading::length);
            order("fastest", slowest, fastest);
            order("hardest", gentlest, hardest);
            surface();
            day();
            return slowest == null || piece == null || tolerance == null || !problems.isEmpty()
                    ? null
                    : new Inquiry(
                            fields.getOrDefault("material", ""), slowest, fastest, gentlest, hardest, piece, tolerance);
        }

        private static double acceleration(Typed typed) throws NotUnderstoodException {
            return typed.number("mm/s\u00b2").doubleValue();
        }

        private static double length(Typed typed) throws NotUnderstoodException {
            return typed.length().mm();
        }

        private @Nullable Double number(String name, boolean needed, Meaning meaning) {
            String text = fields.getOrDefault(name, "");
            if (text.isEmpty() && !needed) {
                return null;
            }
            Typed typed = new Typed(
                    text,
                    DecimalMark.of(fields.getOrDefault("mark", "dot")),
                    Typed.NOTHING.lengthUnit(),
                    Typed.NOTHING.speedUnit());
            try {
                double value = meaning.of(typed);
                if (!(value > 0)) {
                    throw new NotUnderstoodException(NotUnderstoodException.Why.NOT_POSITIVE, text);
                }
                return value;
            } catch (NotUnderstoodException e) {
                problems.add(Problem.of(name, e, visit.wording()));
                return null;
            }
        }

        private void order(String name, @Nullable Double low, @Nullable Double high) {
            if (low != null && high != null && low > high) {
                problems.add(new Problem(name, visit.wording().text("inquiry.order", fields.getOrDefault(name, ""))));
            }
        }

        /** Every surface has an error curve of its own, so without a name nothing tried is evidence. */
        private void surface() {
            if (!fields.containsKey("material")) {
                problems.add(new Problem("material", visit.wording().text("inquiry.no_surface")));
            }
        }

        private void day() {
            String due = fields.getOrDefault("due", "");
            if (!due.isEmpty() && !Days.isDay(due)) {
                problems.add(new Problem("due", visit.wording().text("typed.not_a_date", due)));
            }
        }
    }
}
