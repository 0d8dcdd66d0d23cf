package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.archive.NewEvent;
import slowproof.archive.TrialEntry;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.typed.Typed;
import slowproof.wording.Wording;

/** The list of trials, the last changed first. */
public final class TrialsPage {
    private static final int A_PAGE = 40;

    private final Site site;

    TrialsPage(Site site) {
        this.site = site;
    }

    void install(RoutesConfig routes) {
        routes.get("/trials", this::show);
        routes.post("/trials", this::start);
    }

    /**
     * A line of the list.
     *
     * @param entry the trial
     * @param title its title, or what stands for one
     * @param answers its answer, a line a surface; empty while it has none
     * @param passes how many passes it has
     */
    public record Row(TrialEntry entry, String title, List<Answers.Line> answers, int passes) {
        /** Copies the lines. */
        public Row {
            answers = List.copyOf(answers);
        }
    }

    private void show(Context context) {
        Visit visit = Visit.of(context);
        String filter = context.queryParam("q") == null ? "" : context.queryParam("q");
        filter = filter.length() > 200 ? filter.substring(0, 200) : filter;
        int from = Math.max(0, from(context.queryParam("from")));
        Wording wording = visit.wording();
        List<TrialEntry> entries = site.archive().trials(filter, from, A_PAGE + 1);
        List<Row> rows = new ArrayList<>();
        for (TrialEntry entry : entries.subList(0, Math.min(A_PAGE, entries.size()))) {
            Sheet sheet = site.archive().sheet(entry.id());
            Wording own = BenchPage.wording(visit, sheet);
            Evaluated evaluated = Evaluated.of(sheet, own, site.zone());
            rows.add(new Row(
                    entry,
                    TrialPage.title(sheet, own, site.zone()),
                    evaluated.hasFindings() ? Answers.floors(evaluated.said(), own) : List.of(),
                    evaluated.passes().size()));
        }
        site.send(
                visit,
                "trials.jte",
                wording,
                "trials",
                wording.text("trials.title"),
                List.of(),
                Map.of(
                        "rows", rows,
                        "filter", filter,
                        "from", from,
                        "older", entries.size() > A_PAGE ? from + A_PAGE : -1));
    }

    private static int from(@Nullable String text) {
        return text != null && text.matches("[0-9]{1,6}") ? Integer.parseInt(text) : 0;
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
        visit.goTo("/trials/" + site.archive().start(events) + "/bench");
    }
}
