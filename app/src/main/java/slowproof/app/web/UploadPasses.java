package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.archive.Event;
import slowproof.archive.EventKind;
import slowproof.archive.NewEvent;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.typed.Typed;
import slowproof.files.in.LoadedTrial;
import slowproof.wording.Wording;

/** The passes that were found in logs that were sent, and the step that makes a trial of them. */
final class UploadPasses {
    private final Site site;
    private final UploadPages pages;
    private final UploadJobs jobs;

    UploadPasses(Site site, UploadPages pages, UploadJobs jobs) {
        this.site = site;
        this.pages = pages;
        this.jobs = jobs;
    }

    void install(RoutesConfig routes) {
        routes.get("/recordings/{id}/passes", context -> show(context, false));
        routes.post("/recordings/{id}/passes", context -> show(context, true));
        routes.get("/recordings/{id}/trace/{recording}", this::trace);
        routes.post("/recordings/{id}/keep", this::keep);
    }

    private void show(Context context, boolean sent) {
        Visit visit = Visit.of(context);
        UploadForm form = pages.form(visit, sent);
        if (!form.withoutNames().problems(visit.wording()).isEmpty()) {
            visit.goTo("/recordings/" + context.pathParam("id"));
            return;
        }
        send(visit, form, begin(context, form, visit.wording()), List.of());
    }

    /** The materials are left open, so that typing one needs no new reading. */
    private UploadJobs.Job begin(Context context, UploadForm form, Wording wording) {
        String id = context.pathParam("id");
        String trial = UploadTrial.of(form.withoutNames(), wording.text("surface.unnamed"), form.confirmed());
        return jobs.begin(id, trial, form.logs(), pages.folder(id));
    }

    private void send(Visit visit, UploadForm form, UploadJobs.Job job, List<Problem> problems) {
        Wording wording = visit.wording();
        String id = visit.context().pathParam("id");
        site.send(
                visit,
                "passes.jte",
                wording,
                "recordings",
                wording.text("found.title"),
                problems,
                Map.of("view", UploadPassesView.of(id, form, job, wording, blank(visit), facts(form))));
    }

    private void trace(Context context) throws IOException {
        Path file = UploadJobs.traceFile(pages.folder(context.pathParam("id")), number(context.pathParam("recording")));
        if (!Files.isRegularFile(file)) {
            throw new NotFoundResponse();
        }
        double from = seconds(context.queryParam("from"));
        double to = seconds(context.queryParam("to"));
        if (!(to > from)) {
            throw new NotFoundResponse();
        }
        String points = context.queryParam("pieces");
        context.contentType("application/json")
                .result(UploadTrace.window(
                        file,
                        from,
                        to,
                        points == null ? UploadTrace.USUAL_PIECES : number(points),
                        Visit.wording(context).units().speed()));
    }

    private static int number(String text) {
        if (!text.matches("[0-9]{1,6}")) {
            throw new NotFoundResponse();
        }
        return Integer.parseInt(text);
    }

    private static double seconds(@Nullable String text) {
        try {
            double seconds = Double.parseDouble(Objects.requireNonNullElse(text, ""));
            if (Double.isFinite(seconds)) {
                return seconds;
            }
        } catch (NumberFormatException e) {
            // as for an address that nobody wrote
        }
        throw new NotFoundResponse();
    }

    /** The sheet that a kept trial would begin with: only the habits of the language are known. */
    private static Sheet blank(Visit visit) {
        List<Event> events = new ArrayList<>();
        events.add(new Event(1, Instant.EPOCH, EventKind.STARTED, Map.of()));
        if (visit.german()) {
            events.add(new Event(2, Instant.EPOCH, EventKind.FACT, habit().fields()));
        }
        return Sheet.of("", events);
    }

    private static NewEvent habit() {
        Typed usual = Typed.NOTHING;
        return Sheet.noting(
                FactName.DECIMAL_MARK, new Typed("comma", usual.mark(), usual.lengthUnit(), usual.speedUnit()));
    }

    private static Map<String, String> facts(UploadForm form) {
        Map<String, String> facts = new HashMap<>();
        for (FactName name : UploadPassesView.FACTS) {
            facts.put(FactForm.field(name), form.text(FactForm.field(name)));
        }
        return facts;
    }

    private void keep(Context context) throws IOException {
        Visit visit = Visit.of(context);
        UploadForm form = pages.form(visit, true);
        UploadJobs.Job job = begin(context, form, visit.wording());
        Sheet blank = blank(visit);
        FactForm.Change change = FactForm.change(blank, blank, visit);
        List<Problem> problems = new ArrayList<>(form.problems(visit.wording()));
        problems.addAll(change.problems());
        LoadedTrial loaded = job.loaded();
        if (!problems.isEmpty() || loaded == null) {
            send(visit, form, job, problems);
            return;
        }
        List<NewEvent> events = new ArrayList<>();
        if (visit.german()) {
            events.add(habit());
        }
        events.addAll(change.events());
        Double count = form.countMm();
        if (count != null) {
            events.add(Sheet.noting(FactName.DISTANCE_PER_COUNT, form.typed("count_mm")));
        }
        events.addAll(kept(form));
        String trial = UploadTrial.of(form, visit.wording().text("surface.unnamed"), form.confirmed());
        events.add(NewEvent.of(EventKind.RECORDINGS, "trial", trial));
        String id = site.archive().start(visit.who(), events);
        pages.forget(context.pathParam("id"));
        visit.goTo("/trials/" + id);
    }

    /** Takes the logs into the archive, unchanged and under their fingerprints. */
    private List<NewEvent> kept(UploadForm form) {
        List<NewEvent> events = new ArrayList<>();
        for (UploadStore.Log log : form.logs()) {
            try (InputStream content = Files.newInputStream(log.path())) {
                events.add(NewEvent.of(
                        EventKind.LOG,
                        "sha256",
                        site.archive().keepFile(content),
                        "name",
                        log.name(),
                        "bytes",
                        String.valueOf(log.bytes())));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        return events;
    }
}
