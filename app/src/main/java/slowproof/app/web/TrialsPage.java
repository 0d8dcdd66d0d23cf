package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import slowproof.archive.NewEvent;
import slowproof.archive.TrialIndex;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.summary.SurfaceSummary;
import slowproof.archive.summary.TrialRow;
import slowproof.archive.typed.Typed;
import slowproof.trial.findings.Standing;
import slowproof.wording.Wording;

/** The list of trials: what needs attention first, narrowed by what the address says. */
public final class TrialsPage {
    static final int A_PAGE = 40;

    private final Site site;

    TrialsPage(Site site) {
        this.site = site;
    }

    void install(RoutesConfig routes) {
        routes.get("/trials", this::show);
        routes.get("/trials.csv", context -> new TrialsCsv(site).send(context));
        routes.post("/trials", this::start);
    }

    /**
     * A row of the list.
     *
     * @param row the trial and what is known of it
     * @param title its title, or what stands for one
     * @param lines what it says, a line a surface
     */
    public record Line(TrialRow row, String title, List<Surface> lines) {
        /** Copies the lines. */
        public Line {
            lines = List.copyOf(lines);
        }
    }

    /**
     * A surface of a row, in words.
     *
     * @param material surface
     * @param speeds tested speeds, without their unit
     * @param standing where it stands
     * @param style class name of the style sheet
     * @param sign sign drawn beside it
     * @param from slowest speed from which on it holds, without its unit, or the dash of an absent figure
     */
    public record Surface(String material, String speeds, String standing, String style, String sign, String from) {}

    /**
     * What the page shows.
     *
     * @param form the filter
     * @param lines rows
     * @param total how many trials the filter lets through
     * @param working how many summaries are still being made
     * @param any whether there is any trial at all
     * @param waiting what waits
     */
    public record View(TrialsForm form, List<Line> lines, int total, int working, boolean any, List<Waiting> waiting) {
        /** Copies the lists. */
        public View {
            lines = List.copyOf(lines);
            waiting = List.copyOf(waiting);
        }

        /** Returns the address of the page with newer trials, empty when there is none. */
        public String newer() {
            int from = Math.max(0, form.from() - A_PAGE);
            return form.from() == 0 ? "" : form.with("from", from == 0 ? "" : String.valueOf(from));
        }

        /** Returns the address of the page with older trials, empty when there is none. */
        public String older() {
            int from = form.from() + A_PAGE;
            return from < total ? form.with("from", String.valueOf(from)) : "";
        }

        /** Returns the number of the first row shown, counted from 1. */
        public int first() {
            return form.from() + 1;
        }

        /** Returns the number of the last row shown. */
        public int last() {
            return form.from() + lines.size();
        }
    }

    private void show(Context context) {
        Visit visit = Visit.of(context);
        Wording wording = visit.wording();
        TrialsForm form = TrialsForm.of(visit, site.zone());
        int working = site.summaries().upToDate();
        TrialIndex index = site.summaries().index();
        int total = index.count(form.filter());
        List<Line> lines = new ArrayList<>();
        for (TrialRow row : index.rows(form.filter(), form.order(), form.from(), A_PAGE)) {
            lines.add(line(row, wording));
        }
        boolean any = total > 0 || !site.archive().trials("", 0, 1).isEmpty();
        site.send(
                visit,
                "trials.jte",
                wording,
                "trials",
                wording.text("trials.title"),
                form.problems(),
                Map.of("view", new View(form, lines, total, working, any, Waiting.of(site, wording))));
    }

    private Line line(TrialRow row, Wording wording) {
        String first = row.surfaces().isEmpty() ? "" : row.surfaces().get(0).material();
        String title = TrialPage.title(row.entry().title(), first, row.entry().startedAt(), wording, site.zone());
        return new Line(
                row,
                title,
                row.surfaces().stream().map(one -> surface(one, wording)).toList());
    }

    private Surface surface(SurfaceSummary surface, Wording wording) {
        Show show = new Show(wording, site.zone());
        boolean one = surface.slowestMmPerS() == surface.fastestMmPerS();
        String speeds = one
                ? show.speed(surface.slowestMmPerS())
                : wording.text(
                        "speeds.range", show.speed(surface.slowestMmPerS()), show.speed(surface.fastestMmPerS()));
        Double from = surface.holdsFromMmPerS();
        return new Surface(
                surface.material().isEmpty() ? wording.text("surface.unnamed") : surface.material(),
                speeds,
                wording.text("standing." + surface.standing().key()),
                Answers.style(surface.standing()),
                sign(surface.standing()),
                from == null ? wording.text("figure.absent") : show.speed(from));
    }

    /** Returns the sign drawn beside a standing, so that colour is never alone. */
    static String sign(Standing standing) {
        return switch (standing) {
            case HOLDS -> "\u25cf";
            case PARTLY, UNDECIDED -> "\u25d1";
            case FAILS -> "\u2715";
            case SCREENING_ONLY -> "\u25cb";
        };
    }

    /** An empty trial: the habits of the language, everything else to come. */
    private void start(Context context) {
        Visit visit = Visit.of(context);
        List<NewEvent> events = new ArrayList<>();
        if (visit.german()) {
            Typed comma =
                    new Typed("comma", Typed.NOTHING.mark(), Typed.NOTHING.lengthUnit(), Typed.NOTHING.speedUnit());
            events.add(Sheet.noting(FactName.DECIMAL_MARK, comma));
        }
        visit.goTo("/trials/" + site.archive().start(visit.who(), events) + "/bench");
    }
}
