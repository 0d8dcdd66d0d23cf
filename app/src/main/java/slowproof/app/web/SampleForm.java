package slowproof.app.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.app.Days;
import slowproof.archive.desk.Sample;
import slowproof.wording.Wording;

/**
 * A sample as it is typed.
 *
 * @param fields what was typed, by name of the field; empty ones are absent
 * @param problems what is missing or not understood
 */
public record SampleForm(Map<String, String> fields, List<Problem> problems) {
    private static final int LONGEST = 2000;

    /** Copies the collections. */
    public SampleForm {
        fields = Map.copyOf(fields);
        problems = List.copyOf(problems);
    }

    /** Returns the form of a sample that arrived today. */
    static SampleForm arrived(String today) {
        return new SampleForm(Map.of("received", today), List.of());
    }

    /** Returns what a form carries. */
    static SampleForm sent(Visit visit) {
        Map<String, String> fields = new LinkedHashMap<>();
        for (String name : Sample.FIELDS) {
            String text = visit.field(name).strip();
            if (!text.isEmpty()) {
                fields.put(name, text.length() > LONGEST ? text.substring(0, LONGEST) : text);
            }
        }
        return new SampleForm(fields, problems(fields, visit.wording()));
    }

    private static List<Problem> problems(Map<String, String> fields, Wording wording) {
        List<Problem> problems = new ArrayList<>();
        if (!fields.containsKey("sender")) {
            problems.add(new Problem("sender", wording.text("samples.sender.missing")));
        }
        if (!fields.containsKey("material")) {
            problems.add(new Problem("material", wording.text("samples.material.missing")));
        }
        boolean dates = true;
        for (String name : List.of("received", "due")) {
            String text = fields.getOrDefault(name, "");
            if (!text.isEmpty() && !Days.isDay(text)) {
                problems.add(new Problem(name, wording.text("typed.not_a_date", text)));
                dates = false;
            }
        }
        String received = fields.getOrDefault("received", "");
        String due = fields.getOrDefault("due", "");
        if (dates && !received.isEmpty() && !due.isEmpty() && due.compareTo(received) < 0) {
            problems.add(new Problem("due", wording.text("samples.due.early", received)));
        }
        return problems;
    }

    /** Returns what was typed into a field, empty for nothing. */
    public String field(String name) {
        return fields.getOrDefault(name, "");
    }
}
