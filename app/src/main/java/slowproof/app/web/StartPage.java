package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import slowproof.archive.Archive;
import slowproof.archive.NewEvent;
import slowproof.archive.sheet.FactName;
import slowproof.wording.Wording;

/**
 * The first page: a sentence with blanks. Nothing to save or set up; what stands in the blanks is kept for this
 * browser as it is typed, and becomes a trial when the person wants to keep it.
 */
final class StartPage {
    private final Site site;

    StartPage(Site site) {
        this.site = site;
    }

    void install(RoutesConfig routes) {
        routes.get("/", this::show);
        routes.post("/answer", this::answer);
        routes.post("/clear", this::clear);
        routes.post("/keep", this::keep);
    }

    private void show(Context context) {
        Visit visit = Visit.of(context);
        Map<String, String> typed = site.archive().drafts(visit.desk());
        send(visit, new StartForm(typed, visit.german()), List.of());
    }

    /** Records every blank before it is looked at, so that an answer on the screen is a record on the disk. */
    private void answer(Context context) {
        Visit visit = Visit.of(context);
        StartForm form = take(visit);
        // while somebody is still typing, an unfinished number is no mistake
        boolean stillTyping = "true".equals(context.header("HX-Request"));
        send(visit, form, stillTyping ? List.of() : form.problems(visit.wording()));
    }

    private StartForm take(Visit visit) {
        Map<String, String> typed = visit.fields(StartForm.FIELDS);
        site.archive().keepDrafts(visit.desk(), typed);
        return new StartForm(typed, visit.german());
    }

    private void clear(Context context) {
        Visit visit = Visit.of(context);
        Map<String, String> empty = new HashMap<>();
        StartForm.BLANKS.forEach(name -> empty.put(name, ""));
        site.archive().keepDrafts(visit.desk(), empty);
        visit.goTo("/");
    }

    private void keep(Context context) {
        Visit visit = Visit.of(context);
        StartForm form = take(visit);
        List<Problem> problems = form.problems(visit.wording());
        if (!problems.isEmpty()) {
            send(visit, form, problems);
            return;
        }
        Archive archive = site.archive();
        List<NewEvent> events = new ArrayList<>(form.events());
        String id = archive.start(events);
        Map<String, String> empty = new HashMap<>();
        StartForm.BLANKS.forEach(name -> empty.put(name, ""));
        archive.keepDrafts(visit.desk(), empty);
        visit.goTo("/trials/" + id + "/bench");
    }

    private void send(Visit visit, StartForm form, List<Problem> problems) {
        Wording wording =
                visit.wording().in(Site.units(form.choice(FactName.LENGTH_UNIT), form.choice(FactName.SPEED_UNIT)));
        StartAnswer answer = StartAnswer.of(form, wording, site.zone());
        site.send(
                visit,
                "start.jte",
                wording,
                "start",
                wording.text("start.title"),
                problems,
                Map.of("form", form, "answer", answer, "waiting", Waiting.of(site, wording)));
    }
}
