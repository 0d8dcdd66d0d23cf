package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.BadRequestResponse;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import slowproof.archive.Archive;
import slowproof.archive.Event;
import slowproof.archive.EventKind;
import slowproof.archive.NewEvent;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Facts;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.sheet.SheetSeries;
import slowproof.archive.typed.NotUnderstoodException;
import slowproof.archive.typed.NotUnderstoodException.Why;
import slowproof.archive.typed.Typed;
import slowproof.wording.Wording;

/** The bench sheet: one large field for the reading, and what the readings say so far. */
final class BenchPage {
    private static final List<String> READING_FIELDS = List.of("reading", "reference");
    static final List<String> SERIES_FIELDS =
            List.of("surface", "speed", "acceleration", "from", "to", "onward", "start");

    private static final List<FactName> HABIT_FACTS =
            List.of(FactName.READING_MODE, FactName.LENGTH_UNIT, FactName.SPEED_UNIT, FactName.DECIMAL_MARK);
    private static final Set<String> HABITS =
            HABIT_FACTS.stream().map(FactName::key).collect(Collectors.toUnmodifiableSet());

    /** Fields that may be kept as drafts: those of this page's forms and of the facts. */
    private static final List<String> DRAFT_FIELDS = draftFields();

    private final Site site;

    BenchPage(Site site) {
        this.site = site;
    }

    private static List<String> draftFields() {
        List<String> fields = new ArrayList<>(READING_FIELDS);
        fields.addAll(SERIES_FIELDS);
        for (FactName name : FactName.values()) {
            fields.add("fact_" + name.key());
        }
        return List.copyOf(fields);
    }

    void install(RoutesConfig routes) {
        routes.get("/trials/{id}/bench", this::show);
        routes.post("/trials/{id}/readings", context -> Meanwhile.steadily(() -> read(context)));
        routes.post("/trials/{id}/series", context -> Meanwhile.steadily(() -> startSeries(context)));
        routes.post("/trials/{id}/undo", context -> Meanwhile.steadily(() -> undo(context)));
        routes.post("/trials/{id}/remark", context -> Meanwhile.steadily(() -> remark(context)));
        routes.post("/trials/{id}/habits", context -> Meanwhile.steadily(() -> habits(context)));
        routes.post("/trials/{id}/draft", this::draft);
        routes.sse("/trials/{id}/news", client -> site.live().watch(client.ctx().pathParam("id"), client));
    }

    private void show(Context context) {
        send(Visit.of(context), Map.of(), List.of(), List.of());
    }

    private void read(Context context) {
        Visit visit = Visit.of(context);
        String id = context.pathParam("id");
        if (site.archive().hasRecorded(id, visit.field("token"))) {
            visit.goTo("/trials/" + id + "/bench");
            return;
        }
        List<Event> events = site.archive().events(id);
        Sheet sheet = Sheet.of(id, events);
        Typed reading = like(sheet, visit.field("reading"));
        Typed reference = like(sheet, visit.field("reference"));
        List<Problem> problems = new ArrayList<>();
        Optional<SheetSeries> current = sheet.current();
        if (current.isEmpty()) {
            problems.add(new Problem("reading", visit.wording().text("bench.no_series")));
        }
        check("reading", reading, problems, visit.wording());
        if (!reference.isEmpty()) {
            check("reference", reference, problems, visit.wording());
        }
        if (!problems.isEmpty()) {
            send(visit, visit.fields(READING_FIELDS), problems, List.of());
            return;
        }
        boolean start =
                !sheet.facts().zeroed() && current.orElseThrow().readings().isEmpty();
        NewEvent event = Sheet.reading(reading, reference.text(), start);
        Meanwhile meanwhile = Meanwhile.of(events, visit).with(BenchPage::movesOn);
        List<String> questions = new ArrayList<>();
        if (!meanwhile.isEmpty()) {
            // a reading belongs to a standstill: behind one that its sender has not seen it would mean another
            questions.addAll(meanwhile.told(visit.wording(), site.zone()));
            questions.add(visit.wording().text("meanwhile.reading_next", reading.text()));
        } else if (!visit.field("confirmed").equals(reading.text())) {
            questions.addAll(questions(sheet, events, event, visit));
        }
        if (!questions.isEmpty()) {
            visit.context().status(HttpStatus.UNPROCESSABLE_CONTENT);
            send(visit, visit.fields(READING_FIELDS), List.of(), questions);
            return;
        }
        record(id, visit, sheet, List.of(event), READING_FIELDS);
        visit.goTo("/trials/" + id + "/bench");
    }

    private List<String> questions(Sheet sheet, List<Event> events, NewEvent event, Visit visit) {
        List<Event> more = new ArrayList<>(events);
        more.add(new Event(sheet.lastSeq() + 1, sheet.changedAt(), event.kind(), event.fields()));
        Wording wording = wording(visit, sheet);
        Evaluated before = site.evaluated(sheet, wording);
        Evaluated after = site.evaluated(Sheet.of(sheet.id(), more), wording);
        return Questions.raised(before.meaning().trial(), after.meaning().trial(), wording);
    }

    private void startSeries(Context context) {
        Visit visit = Visit.of(context);
        String id = context.pathParam("id");
        List<Event> seen = site.archive().events(id);
        Sheet sheet = Sheet.of(id, seen);
        List<Problem> problems = new ArrayList<>(told(Meanwhile.of(seen, visit).with(BenchPage::movesOn), visit));
        Typed speed = like(sheet, visit.field("speed"));
        try {
            speed.speedMmPerS();
        } catch (NotUnderstoodException e) {
            problems.add(Problem.of("speed", e, visit.wording()));
        }
        Typed acceleration = like(sheet, visit.field("acceleration"));
        if (!acceleration.isEmpty()) {
            try {
                Facts.check(FactName.ACCELERATION, acceleration);
            } catch (NotUnderstoodException e) {
                problems.add(Problem.of("acceleration", e, visit.wording()));
            }
        }
        Typed from = like(sheet, visit.field("from").isBlank() ? "0" : visit.field("from"));
        Typed to = like(sheet, visit.field("to"));
        check("from", from, problems, visit.wording());
        check("to", to, problems, visit.wording());
        if (problems.isEmpty() && mm(from) == mm(to)) {
            problems.add(Problem.of("to", new NotUnderstoodException(Why.NOT_POSITIVE, to.text()), visit.wording()));
        }
        Typed start = like(sheet, visit.field("start"));
        if (!start.isEmpty()) {
            check("start", start, problems, visit.wording());
        }
        if (!problems.isEmpty()) {
            send(visit, visit.fields(SERIES_FIELDS), problems, List.of());
            return;
        }
        List<NewEvent> events = new ArrayList<>();
        events.add(Sheet.starting(
                visit.field("surface"),
                speed,
                acceleration.text(),
                from.text(),
                to.text(),
                visit.field("onward").equals("true")));
        if (!start.isEmpty() && !sheet.facts().zeroed()) {
            events.add(Sheet.reading(start, "", true));
        }
        record(id, visit, sheet, events, SERIES_FIELDS);
        visit.goTo("/trials/" + id + "/bench");
    }

    private void undo(Context context) {
        Visit visit = Visit.of(context);
        String id = context.pathParam("id");
        long seq = number(visit.field("seq"));
        List<Event> events = site.archive().events(id);
        Sheet sheet = Sheet.of(id, events);
        List<Problem> problems = told(
                Meanwhile.of(events, visit)
                        .with(event -> movesOn(event)
                                || event.kind() == EventKind.COMMENT
                                || event.kind() == EventKind.SPOILED),
                visit);
        if (!problems.isEmpty()) {
            send(visit, Map.of(), problems, List.of());
            return;
        }
        Event step = sheet.lastStep();
        Event undo = sheet.lastUndo();
        boolean allowed = (step != null && step.seq() == seq) || (undo != null && undo.seq() == seq);
        if (allowed) {
            record(id, visit, sheet, List.of(NewEvent.of(EventKind.UNDO, "seq", String.valueOf(seq))), List.of());
        }
        visit.goTo("/trials/" + id + "/bench");
    }

    private void remark(Context context) {
        Visit visit = Visit.of(context);
        String id = context.pathParam("id");
        List<Event> events = site.archive().events(id);
        Sheet sheet = Sheet.of(id, events);
        long reading = number(visit.field("of"));
        boolean known = sheet.series().stream()
                .flatMap(series -> series.readings().stream())
                .anyMatch(one -> one.seq() == reading);
        String field = "remark_" + reading;
        String text = visit.field(field).strip();
        String kind = visit.field("kind");
        List<Problem> problems = told(
                Meanwhile.of(events, visit)
                        .with(event -> event.kind() == EventKind.UNDO
                                || event.text("reading").equals(String.valueOf(reading))),
                visit);
        if (!problems.isEmpty()) {
            send(visit, Map.of(field, text), problems, List.of());
            return;
        }
        if (kind.equals("spoiled") && text.isEmpty()) {
            Problem problem = new Problem(field, visit.wording().text("bench.reason_wanted"));
            send(visit, Map.of(), List.of(problem), List.of());
            return;
        }
        if (known) {
            EventKind event = kind.equals("comment") ? EventKind.COMMENT : EventKind.SPOILED;
            String kept = kind.equals("counts") ? "" : text;
            NewEvent remark = NewEvent.of(event, "reading", String.valueOf(reading), "text", kept);
            record(id, visit, sheet, List.of(remark), List.of(field));
        }
        visit.goTo("/trials/" + id + "/bench");
    }

    private void habits(Context context) {
        Visit visit = Visit.of(context);
        String id = context.pathParam("id");
        List<Event> seen = site.archive().events(id);
        Sheet sheet = Sheet.of(id, seen);
        List<Problem> problems =
                told(Meanwhile.of(seen, visit).with(event -> HABITS.contains(event.text("name"))), visit);
        if (!problems.isEmpty()) {
            send(visit, Map.of(), problems, List.of());
            return;
        }
        List<NewEvent> events = new ArrayList<>();
        for (FactName name : HABIT_FACTS) {
            String chosen = visit.field(name.key());
            if (name.choices().contains(chosen) && !chosen.equals(sheet.facts().choice(name))) {
                events.add(Sheet.noting(name, like(sheet, chosen)));
            }
        }
        if (!events.isEmpty()) {
            record(id, visit, sheet, events, List.of());
        }
        visit.goTo("/trials/" + id + "/bench");
    }

    private void draft(Context context) {
        Visit visit = Visit.of(context);
        String id = context.pathParam("id");
        Map<String, String> drafts = visit.fields(DRAFT_FIELDS);
        context.formParamMap().keySet().stream()
                .filter(field -> field.matches("remark_[0-9]{1,18}"))
                .forEach(field -> drafts.put(field, visit.field(field)));
        site.archive().keepDrafts(owner(visit, id), drafts);
        context.status(HttpStatus.NO_CONTENT);
    }

    /** Returns whose drafts stand in the fields of a trial: each account has its own. */
    static String owner(Visit visit, String trial) {
        Reader reader = Reader.of(visit.context());
        return "trial:" + trial + (reader.hasAccount() ? ":" + reader.name() : "");
    }

    /** Returns true for what makes the next reading another one: where the carriage stands, or how numbers are typed. */
    private static boolean movesOn(Event event) {
        return switch (event.kind()) {
            case READING, SERIES, UNDO -> true;
            case FACT -> HABITS.contains(event.text("name"));
            default -> false;
        };
    }

    /** One problem that tells what was recorded meanwhile; none when nothing was. */
    private List<Problem> told(Meanwhile meanwhile, Visit visit) {
        if (meanwhile.isEmpty()) {
            return List.of();
        }
        String happened = String.join(" ", meanwhile.told(visit.wording(), site.zone()));
        return List.of(new Problem("bench", visit.wording().text("meanwhile.again", happened)));
    }

    private void record(String id, Visit visit, Sheet sheet, List<NewEvent> events, List<String> drafts) {
        Archive archive = site.archive();
        site.record(visit, id, sheet.lastSeq(), events);
        Map<String, String> empty = new HashMap<>();
        drafts.forEach(field -> empty.put(field, ""));
        if (!empty.isEmpty()) {
            archive.keepDrafts(owner(visit, id), empty);
        }
    }

    private static void check(String field, Typed typed, List<Problem> problems, Wording wording) {
        try {
            typed.length();
        } catch (NotUnderstoodException e) {
            problems.add(Problem.of(field, e, wording));
        }
    }

    private static double mm(Typed typed) {
        try {
            return typed.length().mm();
        } catch (NotUnderstoodException e) {
            throw new IllegalStateException(e);
        }
    }

    private static long number(String text) {
        try {
            return Long.parseLong(text);
        } catch (NumberFormatException e) {
            throw new BadRequestResponse();
        }
    }

    static Typed like(Sheet sheet, String text) {
        Typed habits = sheet.facts().habits();
        return new Typed(text, habits.mark(), habits.lengthUnit(), habits.speedUnit());
    }

    static Wording wording(Visit visit, Sheet sheet) {
        return visit.wording()
                .in(Site.units(
                        sheet.facts().choice(FactName.LENGTH_UNIT),
                        sheet.facts().choice(FactName.SPEED_UNIT)));
    }

    private void send(Visit visit, Map<String, String> typed, List<Problem> problems, List<String> questions) {
        String id = visit.context().pathParam("id");
        Sheet sheet = site.archive().sheet(id);
        Wording wording = wording(visit, sheet);
        Evaluated evaluated = site.evaluated(sheet, wording);
        Map<String, String> fields = new HashMap<>(site.archive().drafts(owner(visit, id)));
        fields.putAll(typed);
        BenchView bench = BenchView.of(evaluated, wording, site.zone(), fields, questions);
        site.send(
                visit,
                "bench.jte",
                wording,
                "bench",
                wording.text("bench.title", TrialPage.title(sheet, wording, site.zone())),
                problems,
                Map.of("bench", bench));
    }
}
