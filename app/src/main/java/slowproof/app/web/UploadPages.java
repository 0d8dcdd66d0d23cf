package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import slowproof.wording.Wording;

/**
 * Taking recordings in: sending logs, looking at how each is read, cutting them into passes, keeping them as a trial.
 * Nothing becomes part of the archive before the person keeps it.
 */
final class UploadPages {
    private static final Pattern FIELD = Pattern.compile("[a-z][a-z0-9_]{0,39}");
    private static final int LONGEST = 4000;

    /** Fields that a browser does not send when they are not ticked. */
    private static final List<String> TICKS = List.of("reversed");

    private final Site site;
    private final UploadStore store;
    private final UploadJobs jobs;

    UploadPages(Site site, UploadStore store, UploadJobs jobs) {
        this.site = site;
        this.store = store;
        this.jobs = jobs;
    }

    void install(RoutesConfig routes) {
        routes.get("/recordings/new", this::start);
        routes.post("/recordings/{id}/files", this::take);
        routes.post("/recordings/{id}/remove/{number}", this::remove);
        routes.post("/recordings/{id}/throw-away", this::throwAway);
        routes.get("/recordings/{id}", context -> read(context, false));
        routes.post("/recordings/{id}", context -> read(context, true));
        routes.post("/recordings/{id}/cut", this::cut);
        new UploadPasses(site, this, jobs).install(routes);
    }

    private void start(Context context) {
        Visit visit = Visit.of(context);
        try {
            store.tidy(Instant.now());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        site.send(
                visit,
                "upload.jte",
                visit.wording(),
                "recordings",
                visit.wording().text("upload.title"),
                List.of(),
                Map.of("id", Visit.random(), "limit", limit(visit.wording())));
    }

    /** Returns the bound of a sending in words. */
    String limit(Wording wording) {
        return wording.numbers().upTo(store.limit() / (double) (1L << 30), 2) + "\u00a0GiB";
    }

    /** The body is the file itself, so that it streams to the disk; its name stands in the address. */
    private void take(Context context) throws IOException {
        Visit visit = Visit.of(context);
        String name = context.queryParam("name") == null ? "" : context.queryParam("name");
        try (InputStream content = context.bodyInputStream()) {
            UploadStore.Log log =
                    store.take(context.pathParam("id"), name, context.req().getContentLengthLong(), content);
            context.contentType("text/plain; charset=utf-8")
                    .result(visit.wording()
                            .text(
                                    "upload.taken",
                                    log.name(),
                                    UploadReading.size(
                                            log.bytes(), visit.wording().numbers())));
        } catch (UploadRefusedException e) {
            // the rest of a body that is too large is not wanted
            context.status(HttpStatus.UNPROCESSABLE_CONTENT)
                    .header("Connection", "close")
                    .contentType("text/plain; charset=utf-8")
                    .result(e.sentence(visit.wording()));
        }
    }

    private void remove(Context context) throws IOException {
        Visit visit = Visit.of(context);
        String id = context.pathParam("id");
        String number = context.pathParam("number");
        if (number.matches("[0-9]{1,4}")) {
            store.remove(id, Integer.parseInt(number));
            jobs.forget(id);
        }
        visit.goTo(store.logs(id).isEmpty() ? "/recordings/new" : "/recordings/" + id);
    }

    private void throwAway(Context context) throws IOException {
        forget(context.pathParam("id"));
        Visit.of(context).goTo("/recordings/new");
    }

    /** Removes a sending: its files, what was typed about it and what came of it. */
    void forget(String id) throws IOException {
        jobs.forget(id);
        store.removeAll(id);
        Map<String, String> empty = new HashMap<>();
        site.archive().drafts(owner(id)).keySet().forEach(field -> empty.put(field, ""));
        site.archive().keepDrafts(owner(id), empty);
    }

    private static String owner(String id) {
        return "recordings:" + id;
    }

    /** Returns the folder of a sending. */
    Path folder(String id) {
        return store.folder(id).orElseThrow(NotFoundResponse::new);
    }

    /** Returns what stands in the fields of a sending, after what a form sends was added. */
    UploadForm form(Visit visit, boolean sent) {
        String id = visit.context().pathParam("id");
        List<UploadStore.Log> logs = store.logs(id);
        if (logs.isEmpty()) {
            throw new NotFoundResponse();
        }
        if (sent) {
            site.archive().keepDrafts(owner(id), sent(visit));
        }
        return new UploadForm(logs, site.archive().drafts(owner(id)), visit.german());
    }

    private static Map<String, String> sent(Visit visit) {
        Map<String, String> fields = new HashMap<>();
        Map<String, List<String>> form = visit.context().formParamMap();
        if (form.containsKey("ticks")) {
            TICKS.forEach(tick -> fields.put(tick, ""));
        }
        form.forEach((field, texts) -> {
            if (FIELD.matcher(field).matches() && !texts.isEmpty()) {
                String text = texts.get(0);
                fields.put(field, text.length() > LONGEST ? text.substring(0, LONGEST) : text);
            }
        });
        return fields;
    }

    private void read(Context context, boolean sent) {
        Visit visit = Visit.of(context);
        UploadForm form = form(visit, sent);
        // while somebody is still choosing, an unfinished number is no mistake to announce
        boolean live = "true".equals(context.header("HX-Request"));
        show(visit, form, sent && !live);
    }

    private void show(Visit visit, UploadForm form, boolean announced) {
        Wording wording = visit.wording();
        List<Problem> problems = form.problems(wording);
        UploadReading reading = UploadReading.of(visit.context().pathParam("id"), form, wording);
        List<Problem> told = new ArrayList<>();
        if (announced) {
            told.addAll(problems);
            told.addAll(reading.obstacles());
        }
        site.send(
                visit,
                "reading.jte",
                wording,
                "recordings",
                wording.text("reading.title"),
                told,
                Map.of("reading", reading, "wrong", problems, "limit", limit(wording)));
    }

    /** Goes on to the passes when every log can be read as it stands; else says what is in the way. */
    private void cut(Context context) {
        Visit visit = Visit.of(context);
        UploadForm form = form(visit, true);
        boolean ready = form.problems(visit.wording()).isEmpty()
                && UploadReading.of(context.pathParam("id"), form, visit.wording())
                        .obstacles()
                        .isEmpty();
        if (ready) {
            visit.goTo("/recordings/" + context.pathParam("id") + "/passes");
        } else {
            show(visit, form, true);
        }
    }
}
