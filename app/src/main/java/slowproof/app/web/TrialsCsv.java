package slowproof.app.web;

import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.archive.summary.SurfaceSummary;
import slowproof.archive.summary.TrialRow;
import slowproof.files.out.TableCsv;
import slowproof.wording.Wording;

/** The list of trials as a table of values, a row a surface, all pages of it. */
final class TrialsCsv {
    private static final int AT_ONCE = 500;
    private static final List<String> COLUMNS = List.of(
            "trial",
            "title",
            "started",
            "changed",
            "sensor",
            "passes",
            "attention",
            "material",
            "standing",
            "slowest",
            "fastest",
            "fails_at",
            "holds_from",
            "floor");

    private final Site site;

    TrialsCsv(Site site) {
        this.site = site;
    }

    void send(Context context) throws IOException {
        Visit visit = Visit.of(context);
        Wording wording = visit.wording();
        TrialsForm form = TrialsForm.of(visit, site.zone());
        site.summaries().waitForAll();
        List<List<@Nullable Object>> rows = new ArrayList<>();
        List<TrialRow> some = site.summaries().index().rows(form.filter(), form.order(), 0, AT_ONCE);
        for (int from = AT_ONCE; !some.isEmpty(); from += AT_ONCE) {
            some.forEach(row -> add(row, rows, wording));
            some = site.summaries().index().rows(form.filter(), form.order(), from, AT_ONCE);
        }
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        TableCsv.write(
                COLUMNS.stream().map(one -> wording.text("trials.csv." + one)).toList(), rows, bytes);
        context.contentType("text/csv; charset=utf-8")
                .header("Content-Disposition", "attachment; filename=\"trials.csv\"")
                .result(bytes.toByteArray());
    }

    private static void add(TrialRow row, List<List<@Nullable Object>> rows, Wording wording) {
        if (row.surfaces().isEmpty()) {
            rows.add(cells(row, null, wording));
        }
        for (SurfaceSummary surface : row.surfaces()) {
            rows.add(cells(row, surface, wording));
        }
    }

    private static List<@Nullable Object> cells(TrialRow row, @Nullable SurfaceSummary surface, Wording wording) {
        return Arrays.asList(
                row.entry().id(),
                row.entry().title(),
                row.entry().startedAt().toString(),
                row.entry().changedAt().toString(),
                row.sensor(),
                row.passes(),
                wording.text("attention." + row.attention().key()),
                surface == null ? null : surface.material(),
                surface == null
                        ? null
                        : wording.text("standing." + surface.standing().key()),
                surface == null ? null : Double.valueOf(surface.slowestMmPerS()),
                surface == null ? null : Double.valueOf(surface.fastestMmPerS()),
                surface == null ? null : surface.failsAtMmPerS(),
                surface == null ? null : surface.holdsFromMmPerS(),
                surface == null ? null : surface.floorMmPerS());
    }
}
