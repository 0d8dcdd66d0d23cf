package slowproof.app.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import slowproof.archive.NewEvent;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Facts;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.typed.DecimalMark;
import slowproof.archive.typed.LengthUnit;
import slowproof.archive.typed.NotUnderstoodException;
import slowproof.archive.typed.NotUnderstoodException.Why;
import slowproof.archive.typed.SpeedUnit;
import slowproof.archive.typed.Typed;
import slowproof.wording.Wording;

/** What stands in the blanks of the first page. Immutable. */
public final class StartForm {
    /** Names of the blanks, in the order of the sentence. */
    static final List<String> BLANKS =
            List.of("moved", "speed", "went_from", "went_to", "back", "surface", "limit", "reference", "acceleration");

    /** Names of all fields. */
    static final List<String> FIELDS;

    private static final List<FactName> HABITS =
            List.of(FactName.LENGTH_UNIT, FactName.SPEED_UNIT, FactName.DECIMAL_MARK);

    static {
        List<String> fields = new ArrayList<>(BLANKS);
        HABITS.forEach(name -> fields.add(name.key()));
        FIELDS = List.copyOf(fields);
    }

    private final Map<String, String> typed;
    private final boolean german;

    StartForm(Map<String, String> typed, boolean german) {
        this.typed = Map.copyOf(typed);
        this.german = german;
    }

    /** Returns what stands in a blank. */
    public String text(String field) {
        return typed.getOrDefault(field, "");
    }

    /** Returns a chosen habit; without a choice mm, mm/s and the decimal mark of the language. */
    public String choice(FactName habit) {
        String chosen = text(habit.key());
        if (habit.choices().contains(chosen)) {
            return chosen;
        }
        return habit == FactName.DECIMAL_MARK && german
                ? "comma"
                : habit.choices().get(0);
    }

    Typed typed(String field) {
        return new Typed(
                text(field),
                DecimalMark.of(choice(FactName.DECIMAL_MARK)),
                LengthUnit.of(choice(FactName.LENGTH_UNIT)),
                SpeedUnit.of(choice(FactName.SPEED_UNIT)));
    }

    private boolean has(String field) {
        return !text(field).isBlank();
    }

    /** Returns true when nothing was typed at all. */
    boolean isEmpty() {
        return BLANKS.stream().noneMatch(this::has);
    }

    /** Returns true when the four numbers of the first move are there. */
    boolean hasMove() {
        return has("moved") && has("speed") && has("went_from") && has("went_to");
    }

    /** Returns what is wrong, a missing number of the first move included; empty when the move can be evaluated. */
    List<Problem> problems(Wording wording) {
        List<Problem> problems = new ArrayList<>();
        for (String field : BLANKS) {
            boolean needed = List.of("moved", "speed", "went_from", "went_to").contains(field);
            if (needed || has(field)) {
                try {
                    check(field);
                } catch (NotUnderstoodException e) {
                    problems.add(Problem.of(field, e, wording));
                }
            }
        }
        return problems;
    }

    /** Returns what is wrong with the blanks that are filled in. */
    List<Problem> problemsSoFar(Wording wording) {
        return problems(wording).stream()
                .filter(problem -> has(problem.field()))
                .toList();
    }

    private void check(String field) throws NotUnderstoodException {
        Typed text = typed(field);
        switch (field) {
            case "moved" -> {
                if (!(text.length().mm() > 0)) {
                    throw new NotUnderstoodException(Why.NOT_POSITIVE, text.text());
                }
            }
            case "speed" -> text.speedMmPerS();
            case "limit" -> Facts.check(FactName.LIMIT_PERCENT, text);
            case "reference" -> Facts.check(FactName.REFERENCE_UNCERTAINTY, text);
            case "acceleration" -> Facts.check(FactName.ACCELERATION, text);
            case "surface" -> {}
            default -> text.length();
        }
    }

    /** Returns the events that a trial of these blanks begins with. Only for a form without problems. */
    List<NewEvent> events() {
        List<NewEvent> events = new ArrayList<>();
        for (FactName habit : HABITS) {
            events.add(Sheet.noting(
                    habit,
                    new Typed(
                            choice(habit),
                            typed("").mark(),
                            typed("").lengthUnit(),
                            typed("").speedUnit())));
        }
        note(events, FactName.MATERIAL, "surface");
        note(events, FactName.LIMIT_PERCENT, "limit");
        note(events, FactName.REFERENCE_UNCERTAINTY, "reference");
        note(events, FactName.ACCELERATION, "acceleration");
        events.add(Sheet.starting("", typed("speed"), "", "0", text("moved"), false));
        events.add(Sheet.reading(typed("went_from"), "", true));
        events.add(Sheet.reading(typed("went_to"), "", false));
        if (has("back")) {
            events.add(Sheet.reading(typed("back"), "", false));
        }
        return events;
    }

    private void note(List<NewEvent> events, FactName name, String field) {
        if (has(field)) {
            events.add(Sheet.noting(name, typed(field)));
        }
    }
}
