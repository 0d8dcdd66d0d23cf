package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import io.javalin.http.HttpResponseException;
import io.javalin.http.HttpStatus;
import jakarta.servlet.ServletException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.StringJoiner;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import slowproof.app.demo.DemoArchive;
import slowproof.archive.Archive;
import slowproof.archive.NewEvent;
import slowproof.archive.Sending;
import slowproof.archive.UnknownTrialException;
import slowproof.archive.sheet.Sheet;
import slowproof.wording.Units;
import slowproof.wording.Wording;

/** Which address leads to which page, and what all pages share. */
final class Site {
    private static final Logger LOG = LoggerFactory.getLogger(Site.class);

    private static final long LARGEST_UPLOAD = (long) TakeInPage.LARGEST_MB << 20;

    private final Supplier<Archive> archive;
    private final Templates templates;
    private final Live live;
    private final ZoneId zone;
    private final Summaries summaries;
    private final SaidAnswers said;
    private final KeptRecordings kept;
    private final UploadStore store;
    private final UploadJobs jobs;

    Site(
            Supplier<Archive> archive,
            Summaries summaries,
            SaidAnswers said,
            Templates templates,
            Live live,
            ZoneId zone,
            KeptRecordings kept,
            UploadJobs jobs) {
        this.archive = archive;
        this.summaries = summaries;
        this.said = said;
        this.templates = templates;
        this.live = live;
        this.zone = zone;
        this.kept = kept;
        this.store = new UploadStore(() -> archive.get().arriving(), UploadStore.usualLimit());
        this.jobs = jobs;
    }

    /**
     * Says what answers to which address.
     *
     * @param door who lets people in; null when the pages are for the person at this machine alone
     */
    void install(RoutesConfig routes, @Nullable Door door) {
        if (door != null) {
            door.install(routes, this);
        }
        routes.before(Site::chooseLanguage);
        new StartPage(this).install(routes);
        new TrialsPage(this).install(routes);
        new BenchPage(this).install(routes);
        new TrialPage(this).install(routes);
        LinePage line = new LinePage(this);
        line.install(routes);
        new AnswerPage(this, line).install(routes);
        new QuestionsPage(this).install(routes);
        new SamplesPage(this).install(routes);
        new ComparePage(this).install(routes);
        new Photos(this).install(routes);
        new Downloads(this).install(routes);
        new TakeInPage(this).install(routes);
        new UploadPages(this, store, jobs).install(routes);
        new AccountsPage(this, door).install(routes);
        routes.exception(UnknownTrialException.class, (e, context) -> sorry(context, HttpStatus.NOT_FOUND));
        routes.exception(
                HttpResponseException.class, (e, context) -> sorry(context, HttpStatus.forStatus(e.getStatus())));
        // what the server says of an upload that is too large or broken
        routes.exception(
                ServletException.class,
                (e, context) -> sorry(
                        context,
                        String.valueOf(e.getCause()).contains("exceeded") || context.contentLength() > LARGEST_UPLOAD
                                ? HttpStatus.CONTENT_TOO_LARGE
                                : HttpStatus.BAD_REQUEST));
        routes.exception(Exception.class, (e, context) -> {
            LOG.error("{} {}", context.method(), context.path(), e);
            sorry(context, HttpStatus.INTERNAL_SERVER_ERROR);
        });
        routes.error(HttpStatus.NOT_FOUND, context -> {
            if (context.resultInputStream() == null) {
                sorry(context, HttpStatus.NOT_FOUND);
            }
        });
    }

    /** A link with the language in its address sets it for good and leads back to the same page. */
    private static void chooseLanguage(Context context) {
        String wanted = context.queryParam("language");
        if (wanted != null && HandlerType.GET.equals(context.method())) {
            new Visit(context, Visit.wording(context)).setCookie("language", wanted.equals("de") ? "de" : "en");
            // two slashes at its beginning would lead to another server
            String path = "/" + context.path().replaceFirst("^[/\\\\]+", "");
            context.redirect(path + query(context), HttpStatus.SEE_OTHER);
            context.skipRemainingHandlers();
        }
    }

    /** Returns the query of an address without the language, with its question mark; empty when nothing is left. */
    private static String query(Context context) {
        StringJoiner query = new StringJoiner("&", "?", "").setEmptyValue("");
        String whole = context.queryString();
        for (String part : whole == null ? new String[0] : whole.split("&", -1)) {
            if (!part.isEmpty() && !part.startsWith("language=")) {
                query.add(part);
            }
        }
        return query.toString();
    }

    private void sorry(Context context, HttpStatus status) {
        context.status(status);
        sorry(
                context,
                switch (status) {
                    case NOT_FOUND -> "not_found";
                    case CONTENT_TOO_LARGE -> "too_large";
                    case METHOD_NOT_ALLOWED, BAD_REQUEST -> "bad_request";
                    default -> "our_fault";
                });
    }

    /** Answers with a page that says why there is nothing else. */
    void sorry(Context context, String kind) {
        Visit visit = Visit.of(context);
        send(
                visit,
                "sorry.jte",
                visit.wording(),
                "",
                visit.wording().text("sorry." + kind),
                List.of(),
                Map.of("kind", kind));
    }

    /**
     * Records events of a trial as its visitor and tells everybody who watches it.
     *
     * @param last number of the last event that was looked at
     * @throws slowproof.archive.ChangedMeanwhileException if somebody has recorded since
     */
    void record(Visit visit, String trial, long last, List<NewEvent> events) {
        archive().append(trial, new Sending(visit.field("token"), visit.who(), last, events));
        live.changed(trial, archive().lastSeq(trial));
    }

    SaidAnswers said() {
        return said;
    }

    /** Evaluates a trial, its recordings included. */
    Evaluated evaluated(Sheet sheet, Wording wording) {
        return kept.evaluated(sheet, archive(), wording.text("surface.unnamed"), zone);
    }

    Archive archive() {
        return archive.get();
    }

    Summaries summaries() {
        return summaries;
    }

    /** Returns the day, ISO 8601. */
    String today() {
        return LocalDate.now(zone).toString();
    }

    Live live() {
        return live;
    }

    ZoneId zone() {
        return zone;
    }

    /**
     * Answers with a page. With problems its status says so; then, and when something was refused because of what was recorded
     * meanwhile, its title begins with the word for error.
     */
    void send(
            Visit visit,
            String template,
            Wording wording,
            String place,
            String title,
            List<Problem> problems,
            Map<String, Object> parameters) {
        if (!problems.isEmpty()) {
            visit.context().status(HttpStatus.UNPROCESSABLE_CONTENT);
        }
        boolean refused = !problems.isEmpty() || visit.context().status() == HttpStatus.CONFLICT;
        String whole = refused ? wording.text("problem.title", title) : title;
        Map<String, Object> all = new HashMap<>(parameters);
        all.put(
                "page",
                new Page(
                        wording,
                        new Show(wording, zone),
                        place,
                        whole,
                        path(visit.context(), place),
                        HandlerType.GET.equals(visit.context().method()) ? query(visit.context()) : "",
                        Reader.of(visit.context()),
                        // pages without a place may answer when the archive cannot, or before the log-in
                        !place.isEmpty() && archive().hasTrialLike(DemoArchive.ID_BEGINNING),
                        problems));
        templates.send(visit.context(), template, all);
    }

    /** Answers with a part of a page, without what is around it. */
    void fragment(Visit visit, String template, Map<String, Object> parameters) {
        Map<String, Object> all = new HashMap<>(parameters);
        Wording wording = visit.wording();
        all.put(
                "page",
                new Page(
                        wording,
                        new Show(wording, zone),
                        "",
                        "",
                        visit.context().path(),
                        "",
                        Reader.of(visit.context()),
                        false,
                        List.of()));
        templates.send(visit.context(), template, all);
    }

    /** Returns the address under which a page can be asked for again, also when it answers a form. */
    private static String path(Context context, String place) {
        return switch (place) {
            case "start" -> "/";
            case "bench" -> "/trials/" + context.pathParam("id") + "/bench";
            case "trial" -> "/trials/" + context.pathParam("id");
            case "trials" -> "/trials";
            case "questions" -> "/questions";
            case "inquiry" -> "/questions/" + context.pathParam("number");
            case "samples" -> "/samples";
            case "sample" -> "/samples/" + context.pathParam("number");
            default -> context.path();
        };
    }

    /** Returns the units in which a reader sees figures: those in which the numbers are typed. */
    static Units units(String lengthUnit, String speedUnit) {
        Units.Length length = switch (lengthUnit) {
            case "inch" -> Units.Length.INCH;
            case "m" -> Units.Length.M;
            default -> Units.Length.MM;
        };
        Units.Speed speed = switch (speedUnit) {
            case "m_per_min" -> Units.Speed.M_PER_MIN;
            case "ft_per_min" -> Units.Speed.FT_PER_MIN;
            default -> Units.Speed.MM_PER_S;
        };
        return new Units(length, speed);
    }
}
