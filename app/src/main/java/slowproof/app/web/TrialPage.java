package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import slowproof.archive.Event;
import slowproof.archive.EventKind;
import slowproof.archive.desk.CardKind;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.sheet.SheetSeries;
import slowproof.wording.Wording;

/** The page of one trial: the answer first, then what it rests on. */
final class TrialPage {
    private final Site site;

    TrialPage(Site site) {
        this.site = site;
    }

    void install(RoutesConfig routes) {
        routes.get("/trials/{id}", this::show);
        routes.get("/trials/{id}/said/{sha256}", this::said);
        routes.post("/trials/{id}/facts", context -> Meanwhile.steadily(() -> noteFacts(context)));
    }

    private void show(Context context) {
        Visit visit = Visit.of(context);
        List<Event> events = site.archive().events(context.pathParam("id"));
        send(visit, Map.of(), List.of(), Meanwhile.told(events, visit));
    }

    private void noteFacts(Context context) {
        Visit visit = Visit.of(context);
        String id = context.pathParam("id");
        List<Event> events = site.archive().events(id);
        Sheet sheet = Sheet.of(id, events);
        Meanwhile meanwhile = Meanwhile.of(events, visit).with(event -> event.kind() == EventKind.FACT);
        // what the sender changed is what differs from the page that was filled in, not from what stands there now
        Sheet filledIn = Sheet.of(id, Meanwhile.before(events, visit));
        FactForm.Change change = FactForm.change(filledIn, sheet, visit);
        if (!change.problems().isEmpty()) {
            send(visit, FactForm.sent(filledIn, visit), change.problems(), meanwhile);
            return;
        }
        if (!change.events().isEmpty()) {
            site.record(visit, id, sheet.lastSeq(), change.events());
        }
        Map<String, String> empty = new HashMap<>();
        change.fields().forEach(field -> empty.put(field, ""));
        site.archive().keepDrafts(BenchPage.owner(visit, id), empty);
        String notice = meanwhile.isEmpty() ? "" : "?" + meanwhile.query();
        visit.goTo("/trials/" + id + (visit.field("then").equals("bench") ? "/bench" : notice));
    }

    /** Hands out what this page said at another time, as it was kept then. */
    private void said(Context context) throws IOException {
        String sha256 = context.pathParam("sha256");
        boolean known = site.archive().results(context.pathParam("id")).stream()
                .anyMatch(result -> result.sha256().equals(sha256));
        Path file = site.archive().file(sha256).filter(kept -> known).orElseThrow(NotFoundResponse::new);
        context.contentType("application/json").result(Files.readAllBytes(file));
    }

    void send(Visit visit, Map<String, String> sent, List<Problem> problems, Meanwhile meanwhile) {
        String id = visit.context().pathParam("id");
        Sheet sheet = site.archive().sheet(id);
        Wording wording = BenchPage.wording(visit, sheet);
        Map<String, String> typed = new HashMap<>(site.archive().drafts(BenchPage.owner(visit, id)));
        typed.putAll(sent);
        Evaluated evaluated = site.evaluated(sheet, wording);
        site.said().said(evaluated);
        TrialView trial = TrialView.of(evaluated, wording, site.zone(), FactForm.of(sheet, typed));
        site.send(
                visit,
                "trial.jte",
                wording,
                "trial",
                title(sheet, wording, site.zone()),
                problems,
                Map.of(
                        "trial", trial,
                        "meanwhile", meanwhile.told(wording, site.zone()),
                        "samples", site.archive().cards().ofTrial(CardKind.SAMPLE, id),
                        "said", site.archive().results(id)));
    }

    /** Returns the title of a trial; without one its surface or the time at which it was started. */
    static String title(Sheet sheet, Wording wording, ZoneId zone) {
        String surface = sheet.facts().text(FactName.MATERIAL);
        if (surface.isEmpty()) {
            surface = sheet.series().stream()
                    .map(SheetSeries::material)
                    .filter(material -> !material.isBlank())
                    .findFirst()
                    .orElse("");
        }
        return title(sheet.title(), surface, sheet.startedAt(), wording, zone);
    }

    /** Returns the title of a trial; without one its surface or the time at which it was started. */
    static String title(String title, String surface, Instant startedAt, Wording wording, ZoneId zone) {
        if (!title.isEmpty()) {
            return title;
        }
        String started = new Show(wording, zone).time(startedAt);
        return surface.isEmpty()
                ? wording.text("trial.untitled", started)
                : wording.text("trial.untitled_on", surface, started);
    }
}
