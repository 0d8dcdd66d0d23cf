package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.archive.TrialIndex;
import slowproof.archive.summary.TrialFilter;
import slowproof.archive.summary.TrialRow;
import slowproof.files.out.TableCsv;
import slowproof.metrology.Interval;
import slowproof.report.findings.CompareChart;
import slowproof.trial.compare.Difference;
import slowproof.wording.Wording;

/** Results of trials side by side: one chart, and the difference at each speed with its interval and test. */
public final class ComparePage {
    private static final int OFFERED = 8;
    private static final List<String> COLUMNS = List.of(
            "first",
            "second",
            "speed",
            "first_mean",
            "second_mean",
            "difference",
            "low",
            "high",
            "t",
            "freedom",
            "p",
            "adjusted",
            "verdict",
            "cautions");

    private final Site site;

    ComparePage(Site site) {
        this.site = site;
    }

    void install(RoutesConfig routes) {
        routes.get("/compare", this::show);
        routes.get("/compare.csv", this::csv);
    }

    /**
     * A result that may be added.
     *
     * @param name surface, and set-up where it has a name
     * @param address address of the comparison with it
     */
    public record Offer(String name, String address) {}

    /**
     * A trial whose results may be added.
     *
     * @param title title
     * @param offers results
     */
    public record Offered(String title, List<Offer> offers) {
        /** Copies the list. */
        public Offered {
            offers = List.copyOf(offers);
        }
    }

    private void show(Context context) {
        Visit visit = Visit.of(context);
        Wording wording = visit.wording();
        CompareChoice choice = CompareChoice.of(visit, site);
        CompareView view = CompareView.of(choice, wording);
        String asked = context.queryParam("q");
        String words = asked == null ? "" : asked.substring(0, Math.min(200, asked.length()));
        List<Problem> problems = new ArrayList<>();
        if (choice.missing()) {
            problems.add(new Problem("q", wording.text("compare.missing")));
        }
        if (choice.tooMany()) {
            problems.add(new Problem("q", wording.text("compare.too_many", CompareChart.MOST)));
        }
        boolean full = view.keys().size() >= CompareChart.MOST;
        site.send(
                visit,
                "compare.jte",
                wording,
                "compare",
                wording.text("compare.title"),
                problems,
                Map.of("view", view, "words", words, "offered", full ? List.of() : offered(words, view, wording)));
    }

    private List<Offered> offered(String words, CompareView view, Wording wording) {
        site.summaries().upToDate();
        TrialIndex index = site.summaries().index();
        TrialFilter filter = new TrialFilter(words, "", "", null, null, null, null, "", "");
        List<TrialRow> rows = index.rows(filter, TrialFilter.Order.CHANGED, 0, OFFERED);
        Map<String, Map<Integer, List<String>>> setups =
                index.setups(rows.stream().map(row -> row.entry().id()).toList());
        List<Offered> offered = new ArrayList<>();
        for (TrialRow row : rows) {
            List<Offer> offers = new ArrayList<>();
            setups.getOrDefault(row.entry().id(), Map.of())
                    .forEach((place, names) -> names.forEach(setup -> add(offers, row, place, setup, view, wording)));
            if (!offers.isEmpty()) {
                String first = row.surfaces().get(0).material();
                String title =
                        TrialPage.title(row.entry().title(), first, row.entry().startedAt(), wording, site.zone());
                offered.add(new Offered(title, offers));
            }
        }
        return offered;
    }

    private static void add(
            List<Offer> offers, TrialRow row, int place, String setup, CompareView view, Wording wording) {
        String key = CompareChoice.key(row.entry().id(), place, setup);
        if (!view.keys().contains(key)) {
            String material = row.surfaces().get(place).material();
            String surface = material.isEmpty() ? wording.text("surface.unnamed") : material;
            offers.add(new Offer(setup.isEmpty() ? surface : surface + ", " + setup, view.with(key)));
        }
    }

    private void csv(Context context) throws IOException {
        Visit visit = Visit.of(context);
        Wording wording = visit.wording();
        CompareView view = CompareView.of(CompareChoice.of(visit, site), wording);
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (CompareView.PairView pair : view.pairs()) {
            pair.pair().differences().forEach(one -> rows.add(row(pair, one, wording)));
        }
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        TableCsv.write(
                COLUMNS.stream().map(one -> wording.text("compare.csv." + one)).toList(), rows, bytes);
        context.contentType("text/csv; charset=utf-8")
                .header("Content-Disposition", "attachment; filename=\"comparison.csv\"")
                .result(bytes.toByteArray());
    }

    private static List<@Nullable Object> row(CompareView.PairView pair, Difference one, Wording wording) {
        Interval interval = one.interval();
        return Arrays.asList(
                pair.first(),
                pair.second(),
                one.first().speedMmPerS(),
                100 * one.first().mean(),
                100 * one.second().mean(),
                100 * one.difference(),
                interval == null ? null : Double.valueOf(100 * interval.low()),
                interval == null ? null : Double.valueOf(100 * interval.high()),
                one.t(),
                one.t() == null || Double.isInfinite(one.freedom()) ? null : Double.valueOf(one.freedom()),
                one.p(),
                one.adjusted(),
                wording.text(CompareView.verdict(one)),
                String.join(
                        "; ",
                        one.notes().stream()
                                .map(note -> wording.text("caution." + note.key()))
                                .toList()));
    }
}
