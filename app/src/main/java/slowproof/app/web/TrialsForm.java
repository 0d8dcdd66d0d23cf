package slowproof.app.web;

import io.javalin.http.Context;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import slowproof.archive.summary.Attention;
import slowproof.archive.summary.TrialFilter;
import slowproof.archive.typed.NotUnderstoodException;
import slowproof.trial.findings.Standing;

/**
 * The filter of the list of trials as it stands in an address.
 *
 * @param fields what was typed, by name of the field; empty ones are absent
 * @param filter what it means; a field that is not understood counts as empty
 * @param order order of the list
 * @param from how many trials to leave out
 * @param problems what is not understood
 */
public record TrialsForm(
        Map<String, String> fields, TrialFilter filter, TrialFilter.Order order, int from, List<Problem> problems) {
    private static final List<String> NAMES = List.of(
            "q", "material", "sensor", "slowest", "fastest", "standing", "attention", "since", "until", "order");
    private static final int LONGEST = 200;

    /** Copies the collections. */
    public TrialsForm {
        fields = Map.copyOf(fields);
        problems = List.copyOf(problems);
    }

    static TrialsForm of(Visit visit, ZoneId zone) {
        Map<String, String> fields = new LinkedHashMap<>();
        for (String name : NAMES) {
            String value = visit.context().queryParam(name);
            if (value != null && !value.isBlank()) {
                fields.put(name, value.length() > LONGEST ? value.substring(0, LONGEST) : value);
            }
        }
        Reading reading = new Reading(fields, visit, zone);
        TrialFilter filter = new TrialFilter(
                reading.text("q"),
                reading.text("material"),
                reading.text("sensor"),
                reading.speed("slowest"),
                reading.speed("fastest"),
                choice(Standing.class, reading.text("standing")).orElse(null),
                choice(Attention.class, reading.text("attention")).orElse(null),
                reading.moment("since", 0),
                reading.moment("until", 1));
        TrialFilter.Order order =
                choice(TrialFilter.Order.class, reading.text("order")).orElse(TrialFilter.Order.ATTENTION);
        return new TrialsForm(fields, filter, order, from(visit.context()), reading.problems);
    }

    private static int from(Context context) {
        String text = context.queryParam("from");
        return text != null && text.matches("[0-9]{1,6}") ? Integer.parseInt(text) : 0;
    }

    private static <E extends Enum<E>> Optional<E> choice(Class<E> type, String key) {
        for (E one : type.getEnumConstants()) {
            if (one.name().toLowerCase(Locale.ROOT).equals(key)) {
                return Optional.of(one);
            }
        }
        return Optional.empty();
    }

    /** Returns what was typed into a field, empty for nothing. */
    public String field(String name) {
        return fields.getOrDefault(name, "");
    }

    /** Returns true when only some trials are asked for. */
    public boolean isNarrowed() {
        return fields.keySet().stream().anyMatch(name -> !name.equals("order"));
    }

    /** Returns true when a field beside the words is filled. */
    public boolean isDetailed() {
        return fields.keySet().stream().anyMatch(name -> !name.equals("order") && !name.equals("q"));
    }

    /** Returns the address of the same list with one field changed; an empty text clears it. */
    public String with(String name, String text) {
        Map<String, String> others = new LinkedHashMap<>();
        NAMES.forEach(one -> others.put(one, one.equals(name) ? text : field(one)));
        if (name.equals("from")) {
            others.put(name, text);
        }
        return "/trials" + query(others);
    }

    /** Returns the address of the same list as a table of values. */
    public String csv() {
        return "/trials.csv" + query(fields);
    }

    private static String query(Map<String, String> fields) {
        StringBuilder query = new StringBuilder();
        fields.forEach((name, text) -> {
            if (!text.isEmpty()) {
                query.append(query.isEmpty() ? '?' : '&')
                        .append(name)
                        .append('=')
                        .append(URLEncoder.encode(text, StandardCharsets.UTF_8));
            }
        });
        return query.toString();
    }

    /** Reads fields and collects what is wrong with them; used once. */
    private static final class Reading {
        private final Map<String, String> fields;
        private final Visit visit;
        private final ZoneId zone;
        private final List<Problem> problems = new ArrayList<>();

        Reading(Map<String, String> fields, Visit visit, ZoneId zone) {
            this.fields = fields;
            this.visit = visit;
            this.zone = zone;
        }

        String text(String name) {
            return fields.getOrDefault(name, "");
        }

        @Nullable
        Double speed(String name) {
            if (text(name).isEmpty()) {
                return null;
            }
            try {
                return visit.typed(text(name)).speedMmPerS();
            } catch (NotUnderstoodException e) {
                problems.add(Problem.of(name, e, visit.wording()));
                return null;
            }
        }

        /** Returns the first moment of a day, or of a later one, as ISO 8601 in UTC; empty for none. */
        String moment(String name, int daysLater) {
            if (text(name).isEmpty()) {
                return "";
            }
            try {
                return LocalDate.parse(text(name).strip())
                        .plusDays(daysLater)
                        .atStartOfDay(zone)
                        .toInstant()
                        .toString();
            } catch (DateTimeException e) {
                problems.add(new Problem(name, visit.wording().text("typed.not_a_date", text(name))));
                return "";
            }
        }
    }
}
