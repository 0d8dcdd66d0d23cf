package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.app.FileNames;
import slowproof.app.WrittenAnswer;
import slowproof.archive.Event;
import slowproof.archive.sheet.ReleasedAnswer;
import slowproof.archive.sheet.Sheet;
import slowproof.trial.input.BadInputException;
import slowproof.trial.line.Line;
import slowproof.wording.Wording;

/**
 * The page of the written answer: drafts for everybody who may read, release by a named person, and what was released,
 * which stays as it is.
 */
final class AnswerPage {
    private final Site site;
    private final LinePage lines;
    private final AnswerFile file;

    AnswerPage(Site site, LinePage lines) {
        this.site = site;
        this.lines = lines;
        this.file = new AnswerFile(site);
    }

    void install(RoutesConfig routes) {
        routes.get("/trials/{id}/answer", this::show);
        routes.get("/trials/{id}/answer/draft", this::draft);
        routes.post("/trials/{id}/answer/release", context -> Meanwhile.steadily(() -> release(context)));
        routes.get("/trials/{id}/answer/{number}", this::released);
    }

    /**
     * What a request is about.
     *
     * @param visit the request
     * @param events everything recorded of the trial
     * @param sheet the trial
     * @param released what was released of it
     */
    private record Subject(Visit visit, List<Event> events, Sheet sheet, List<ReleasedAnswer> released) {
        /** Returns true when the address describes a line. */
        boolean withLine() {
            return visit.context().queryParam("material") != null;
        }

        /** Returns the number of the answer that a new one supersedes unless something else is chosen. */
        String usual() {
            return released.stream()
                    .filter(answer -> answer.stands()
                            && answer.subject().hasLine() == withLine()
                            && answer.subject()
                                    .language()
                                    .equals(visit.wording().locale().getLanguage()))
                    .reduce((first, second) -> second)
                    .map(answer -> String.valueOf(answer.number()))
                    .orElse("");
        }
    }

    private Subject subject(Context context) {
        Visit visit = Visit.of(context);
        String id = context.pathParam("id");
        List<Event> events = site.archive().events(id);
        return new Subject(visit, events, Sheet.of(id, events), ReleasedAnswer.of(events));
    }

    private void show(Context context) {
        Subject subject = subject(context);
        send(subject, choice(subject), AnswerRelease.empty(site.today()), new ArrayList<>());
    }

    /** Reads what the address carries: the body of a request that only asks is left alone. */
    private static AnswerChoice choice(Subject subject) {
        Visit visit = subject.visit();
        return AnswerChoice.of(
                visit.context()::queryParam, visit.wording().locale().getLanguage(), subject.usual());
    }

    private void draft(Context context) throws IOException {
        Subject subject = subject(context);
        AnswerChoice choice = choice(subject);
        List<Problem> problems = new ArrayList<>();
        ReleasedAnswer superseded = choice.superseded(subject.released());
        LinePage.Asked line = line(subject, choice, problems);
        if (superseded != null && !superseded.subject().isLike(kept(choice, line))) {
            problems.add(new Problem(
                    "draft_supersedes", subject.visit().wording().text("issue.unlike", superseded.number())));
        }
        byte[] written = problems.isEmpty() ? written(subject, line, choice, null, superseded, problems) : null;
        if (written == null) {
            send(subject, choice, AnswerRelease.empty(site.today()), problems);
            return;
        }
        attach(context, written, name(subject, choice, "draft"));
    }

    private void release(Context context) throws IOException {
        Subject subject = subject(context);
        Visit visit = subject.visit();
        Wording wording = visit.wording();
        String id = subject.sheet().id();
        if (site.archive().hasRecorded(id, visit.field("token"))) {
            visit.goTo("/trials/" + id + "/answer");
            return;
        }
        AnswerChoice choice =
                AnswerChoice.of(context::formParam, wording.locale().getLanguage(), "");
        AnswerRelease release = AnswerRelease.sent(visit);
        List<Problem> problems = new ArrayList<>();
        LinePage.Asked line = line(subject, choice, problems);
        ReleasedAnswer.Subject kept = kept(choice, line);
        problems.addAll(release.problems(kept, choice, subject.released(), site.today(), wording));
        Meanwhile meanwhile = Meanwhile.of(subject.events(), visit);
        if (!meanwhile.isEmpty()) {
            // who releases has to have seen what is released
            problems.add(new Problem(
                    "said", wording.text("issue.meanwhile", String.join(" ", meanwhile.told(wording, site.zone())))));
        }
        ReleasedAnswer superseded = choice.superseded(subject.released());
        byte[] written = problems.isEmpty() ? written(subject, line, choice, release, superseded, problems) : null;
        if (written == null) {
            send(subject, choice, release, problems);
            return;
        }
        int number = subject.released().size() + 1;
        site.record(
                visit,
                id,
                subject.sheet().lastSeq(),
                List.of(ReleasedAnswer.releasing(
                        site.archive().keepFile(written),
                        name(subject, choice, String.valueOf(number)),
                        written.length,
                        kept,
                        release.kept(superseded != null),
                        superseded == null ? null : Integer.valueOf(superseded.number()))));
        visit.goTo("/trials/" + id + "/answer" + kept.line() + "#released");
    }

    /** Hands out what was released, byte for byte. */
    private void released(Context context) throws IOException {
        Subject subject = subject(context);
        ReleasedAnswer answer = subject.released().stream()
                .filter(one -> String.valueOf(one.number()).equals(context.pathParam("number")))
                .findFirst()
                .orElseThrow(NotFoundResponse::new);
        Path kept = site.archive().file(answer.sha256()).orElseThrow(NotFoundResponse::new);
        attach(context, Files.readAllBytes(kept), answer.name());
    }

    /** A record from elsewhere may call its file anything: it is handed out as what it is, and never shown as a page. */
    private static void attach(Context context, byte[] content, String name) {
        boolean pdf = content.length > 4 && content[0] == '%' && content[1] == 'P' && content[2] == 'D';
        String plain = name.replaceAll("\\.(pdf|html)$", "").replaceAll("[^A-Za-z0-9-]+", "-");
        context.contentType(pdf ? "application/pdf" : "text/html; charset=utf-8")
                .header("Content-Security-Policy", "default-src 'none'; sandbox")
                .header(
                        "Content-Disposition",
                        "attachment; filename=\"" + (plain.isEmpty() ? "answer" : plain) + (pdf ? ".pdf" : ".html")
                                + "\"")
                .result(content);
    }

    private String name(Subject subject, AnswerChoice choice, String end) {
        String title =
                TrialPage.title(subject.sheet(), Wording.of(choice.locale()).withPages(), site.zone());
        return FileNames.of(title, "trial") + "-answer-" + end + "." + choice.form();
    }

    /** Asks for the line in the language of the file: surfaces without a name are called so in it. */
    private LinePage.@Nullable Asked line(Subject subject, AnswerChoice choice, List<Problem> problems) {
        if (!subject.withLine()) {
            return null;
        }
        List<Problem> own = new ArrayList<>();
        LinePage.Asked asked = lines.ask(
                new Visit(subject.visit().context(), Wording.of(choice.locale()).withPages()), own);
        if (asked.line() == null) {
            problems.add(new Problem("said", subject.visit().wording().text("issue.no_line")));
        }
        return asked;
    }

    private static ReleasedAnswer.Subject kept(AnswerChoice choice, LinePage.@Nullable Asked line) {
        return new ReleasedAnswer.Subject(
                choice.language(),
                choice.form(),
                line == null ? "" : line.material(),
                line == null ? "" : LinePage.query(line));
    }

    /** Returns the file, or null after noting why there is none. */
    private byte @Nullable [] written(
            Subject subject,
            LinePage.@Nullable Asked line,
            AnswerChoice choice,
            @Nullable AnswerRelease release,
            @Nullable ReleasedAnswer superseded,
            List<Problem> problems)
            throws IOException {
        Wording wording = subject.visit().wording();
        if (!site.evaluated(subject.sheet(), wording).hasFindings()) {
            problems.add(new Problem("said", wording.text("issue.nothing")));
            return null;
        }
        try {
            return release == null
                    ? file.write(subject.sheet(), line, choice, null, superseded, "")
                    : file.write(
                            subject.sheet(),
                            line,
                            choice,
                            new WrittenAnswer.Release(release.person(), release.date()),
                            superseded,
                            release.reason());
        } catch (BadInputException e) {
            e.problems().forEach(problem -> problems.add(new Problem("said", wording.problem(problem))));
            return null;
        }
    }

    private void send(Subject subject, AnswerChoice choice, AnswerRelease release, List<Problem> problems) {
        Visit visit = subject.visit();
        Wording wording = visit.wording();
        Evaluated evaluated = site.evaluated(subject.sheet(), wording);
        List<ReleasedAnswer> latest = new ArrayList<>(subject.released());
        Collections.reverse(latest);
        AnswerView view = new AnswerView(
                subject.sheet().id(),
                TrialPage.title(subject.sheet(), wording, site.zone()),
                subject.sheet().lastSeq(),
                Visit.random(),
                evaluated.hasFindings() ? Answers.floors(evaluated.said(), wording) : List.of(),
                shown(subject, problems),
                choice,
                release,
                latest);
        site.send(visit, "answer.jte", wording, "written", wording.text("issue.title"), problems, Map.of("view", view));
    }

    private AnswerView.@Nullable Line shown(Subject subject, List<Problem> problems) {
        if (!subject.withLine()) {
            return null;
        }
        List<Problem> own = new ArrayList<>();
        LinePage.Asked asked = lines.ask(subject.visit(), own);
        Line line = asked.line();
        if (line == null && problems.isEmpty()) {
            problems.add(new Problem("said", subject.visit().wording().text("issue.no_line")));
        }
        List<String> sentences = line == null || asked.evidence() == null
                ? List.of()
                : LinePage.answer(
                                Objects.requireNonNull(asked.evidence()),
                                line,
                                subject.visit().wording())
                        .lead();
        return new AnswerView.Line(LinePage.parameters(asked), LinePage.query(asked), sentences);
    }
}
