package slowproof.app.web;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import slowproof.archive.NewEvent;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Facts;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.typed.NotUnderstoodException;
import slowproof.archive.typed.Typed;
import slowproof.wording.Wording;

/**
 * The facts of a trial as a form: every one may stay blank, and each that is filled in lets the answer say more.
 *
 * @param groups groups of fields in the order of the page
 */
public record FactForm(List<Group> groups) {
    /** Facts that turn a screening into a decision. */
    private static final List<FactName> DECISION = List.of(
            FactName.LIMIT_PERCENT,
            FactName.LIMIT_LENGTH,
            FactName.REFERENCE_UNCERTAINTY,
            FactName.REFERENCE_PPM,
            FactName.COVERAGE_FACTOR,
            FactName.TAPE_CLASS,
            FactName.ACCELERATION,
            FactName.RESOLUTION,
            FactName.DISTANCE_PER_COUNT,
            FactName.DECISION_RULE);

    private static final List<FactName> WHAT = List.of(
            FactName.TITLE,
            FactName.MATERIAL,
            FactName.SENSOR_NAME,
            FactName.SENSOR_SERIAL,
            FactName.REFERENCE_NAME,
            FactName.REFERENCE_KIND,
            FactName.CERTIFICATE_NUMBER,
            FactName.CERTIFICATE_ISSUED_BY,
            FactName.CERTIFICATE_DATE,
            FactName.CERTIFICATE_TRACEABLE_TO,
            FactName.STATED_PERCENT,
            FactName.STATED_FROM,
            FactName.WHO);

    private static final List<FactName> SETUP = List.of(
            FactName.SETUP_NAME,
            FactName.FIRMWARE,
            FactName.PARAMETERS,
            FactName.WORKING_DISTANCE,
            FactName.WINDOW,
            FactName.MISALIGNMENT,
            FactName.ABBE_OFFSET,
            FactName.ABBE_ANGLE,
            FactName.TEMPERATURE,
            FactName.TEMPERATURE_HALF_WIDTH,
            FactName.EXPANSION,
            FactName.NOTES);

    /**
     * A group of fields.
     *
     * @param key key of its heading
     * @param fields its fields
     */
    public record Group(String key, List<Field> fields) {
        /** Copies the fields. */
        public Group {
            fields = List.copyOf(fields);
        }
    }

    /**
     * A field.
     *
     * @param name the fact
     * @param field name of the field
     * @param text what stands in it
     * @param unit unit shown beside its label, empty for none
     */
    public record Field(FactName name, String field, String text, String unit) {
        /** Returns true for several lines of text. */
        public boolean isLong() {
            return name == FactName.NOTES || name == FactName.PARAMETERS;
        }

        /** Returns true for one of several words. */
        public boolean isChoice() {
            return name.kind() == FactName.Kind.CHOICE;
        }

        /** Returns true for words. */
        public boolean isText() {
            return name.kind() == FactName.Kind.TEXT;
        }
    }

    /** Copies the groups. */
    public FactForm {
        groups = List.copyOf(groups);
    }

    /**
     * Returns the form of a sheet.
     *
     * @param sheet sheet
     * @param typed what stands in fields and is not recorded yet, by name of the field
     */
    static FactForm of(Sheet sheet, Map<String, String> typed) {
        return new FactForm(List.of(
                group("decision", DECISION, sheet, typed),
                group("what", WHAT, sheet, typed),
                group("setup", SETUP, sheet, typed)));
    }

    private static Group group(String key, List<FactName> names, Sheet sheet, Map<String, String> typed) {
        List<Field> fields = new ArrayList<>();
        for (FactName name : names) {
            String field = field(name);
            String text = typed.getOrDefault(field, recorded(sheet, name));
            fields.add(new Field(name, field, text, unit(name, sheet.facts().habits())));
        }
        return new Group(key, fields);
    }

    static String field(FactName name) {
        return "fact_" + name.key();
    }

    private static String recorded(Sheet sheet, FactName name) {
        return name.kind() == FactName.Kind.CHOICE
                ? sheet.facts().choice(name)
                : shown(sheet.facts().typed(name), sheet.facts().habits(), name);
    }

    /** A length or speed typed in another unit than the one in use now carries its unit. */
    static String shown(Typed typed, Typed habits, FactName name) {
        String text = typed.text();
        boolean bare = !text.isBlank()
                && Character.isDigit(text.strip().charAt(text.strip().length() - 1));
        boolean length =
                name.kind() == FactName.Kind.LENGTH_POSITIVE || name.kind() == FactName.Kind.LENGTH_NOT_NEGATIVE;
        if (bare && length && typed.lengthUnit() != habits.lengthUnit()) {
            return text + " " + typed.lengthUnit().symbol();
        }
        if (bare && name.kind() == FactName.Kind.SPEED && typed.speedUnit() != habits.speedUnit()) {
            return text + " " + typed.speedUnit().symbol();
        }
        return text;
    }

    private static String unit(FactName name, Typed habits) {
        return switch (name.kind()) {
            case LENGTH_NOT_NEGATIVE, LENGTH_POSITIVE -> habits.lengthUnit().symbol();
            case SPEED -> habits.speedUnit().symbol();
            default -> name.unit();
        };
    }

    /** What a sent form changes: events to record, or problems. */
    record Change(List<NewEvent> events, List<Problem> problems, List<String> fields) {}

    /**
     * Returns what a sent form changes. A fact that somebody else changed meanwhile, to something else than the sender,
     * is a problem that says what it is now.
     *
     * @param filledIn the sheet as it stood on the page that was filled in
     * @param now the sheet as it stands now
     * @param visit the request
     */
    static Change change(Sheet filledIn, Sheet now, Visit visit) {
        List<NewEvent> events = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        List<String> fields = new ArrayList<>();
        Wording wording = visit.wording();
        for (FactName name : FactName.values()) {
            String field = field(name);
            if (visit.context().formParam(field) == null) {
                continue;
            }
            fields.add(field);
            Typed typed = BenchPage.like(filledIn, visit.field(field));
            String before = recorded(filledIn, name);
            String present = recorded(now, name);
            if (typed.text().equals(before) || typed.text().equals(present)) {
                continue;
            }
            if (!before.equals(present)) {
                problems.add(new Problem(
                        field,
                        wording.text(
                                "meanwhile.fact_differs",
                                wording.text("fact." + name.key()),
                                choice(name, present, wording),
                                choice(name, typed.text(), wording))));
                continue;
            }
            if (!typed.isEmpty()) {
                try {
                    Facts.check(name, typed);
                } catch (NotUnderstoodException e) {
                    problems.add(Problem.of(field, e, wording));
                    continue;
                }
            }
            events.add(Sheet.noting(name, typed));
        }
        return new Change(events, problems, fields);
    }

    /** A choice in the words of the page; what is typed as it is. */
    static String choice(FactName name, String text, Wording wording) {
        if (name.kind() != FactName.Kind.CHOICE) {
            return text;
        }
        return wording.text("choice." + name.key() + "." + (text.isEmpty() ? "none" : text));
    }

    /** Returns the fields that the sender changed: the others show what stands there now. */
    static Map<String, String> sent(Sheet filledIn, Visit visit) {
        Map<String, String> sent = new HashMap<>();
        for (FactName name : FactName.values()) {
            if (visit.context().formParam(field(name)) != null
                    && !visit.field(field(name)).equals(recorded(filledIn, name))) {
                sent.put(field(name), visit.field(field(name)));
            }
        }
        return sent;
    }
}
