package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.Map;
import slowproof.app.Program;
import slowproof.files.in.LineReader;
import slowproof.files.in.LoadedLine;
import slowproof.files.in.LoadedTrial;
import slowproof.files.out.ForecastCsv;
import slowproof.files.out.ForecastJson;
import slowproof.files.out.ForecastXlsx;
import slowproof.files.out.LineWriter;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecasting;
import slowproof.trial.forecast.Settings;
import slowproof.trial.line.Line;
import slowproof.wording.Wording;

/** Hands out the forecast of a line as files, and the line as the file that the command line takes. */
final class LineDownloads {
    static final String LINE_FILE = "line.yaml";

    private final Site site;
    private final LinePage page;

    LineDownloads(Site site, LinePage page) {
        this.site = site;
        this.page = page;
    }

    void install(RoutesConfig routes) {
        routes.get("/trials/{id}/line/" + LINE_FILE, this::line);
        routes.get("/trials/{id}/line/forecast.json", context -> send(context, "application/json", "json", this::json));
        routes.get(
                "/trials/{id}/line/forecast.csv",
                context -> send(
                        context,
                        "text/csv; charset=utf-8",
                        "csv",
                        (forecast, loaded, wording, out) -> ForecastCsv.write(forecast, wording, out)));
        routes.get(
                "/trials/{id}/line/forecast.xlsx",
                context -> send(
                        context,
                        "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
                        "xlsx",
                        (forecast, loaded, wording, out) -> ForecastXlsx.write(forecast, wording, out)));
    }

    private interface Writer {
        void write(Forecast forecast, LoadedTrial loaded, Wording wording, OutputStream out) throws IOException;
    }

    private void json(Forecast forecast, LoadedTrial loaded, Wording wording, OutputStream out) throws IOException {
        ForecastJson.write(forecast, Program.envelope(loaded, Evaluation.USUAL_SEED), loaded.sources(), wording, out);
    }

    private void line(Context context) {
        Visit visit = Visit.of(context);
        LinePage.Asked asked = page.ask(visit, new ArrayList<>());
        Downloads.attach(context, "application/yaml; charset=utf-8", "line.yaml", title(asked, visit));
        context.result(LineWriter.bytes(driven(asked)));
    }

    private void send(Context context, String type, String ending, Writer writer) throws IOException {
        Visit visit = Visit.of(context);
        LinePage.Asked asked = page.ask(visit, new ArrayList<>());
        Evaluated evaluated = site.evaluated(asked.sheet(), visit.wording());
        String title = title(asked, visit);
        Map<String, byte[]> files = new LinkedHashMap<>(Downloads.trialFiles(evaluated, title));
        files.put(LINE_FILE, LineWriter.bytes(driven(asked)));
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        Downloads.throughFiles(files, folder -> {
            LoadedTrial loaded = Downloads.loaded(
                    folder, KeptRecordings.rawFiles(asked.sheet().recordings(), site.archive()));
            LoadedLine line = LineReader.read(folder.resolve(LINE_FILE));
            Findings findings = Evaluation.of(loaded.trial());
            LineEvidence evidence = LineEvidence.of(findings, asked.material(), Evaluation.USUAL_SEED);
            Forecast forecast = Forecasting.of(evidence, line.line(), Settings.of(Evaluation.USUAL_SEED));
            writer.write(forecast, loaded.with(line), visit.wording(), bytes);
        });
        Downloads.attach(context, type, "forecast." + ending, title);
        context.result(bytes.toByteArray());
    }

    private String title(LinePage.Asked asked, Visit visit) {
        return TrialPage.title(asked.sheet(), visit.wording(), site.zone());
    }

    /** Returns the line that was asked for; without one there is nothing to hand out. */
    static Line driven(LinePage.Asked asked) {
        Line line = asked.line();
        if (line == null) {
            // the page offers no files for a line that it could not understand
            throw new NotFoundResponse();
        }
        return line;
    }
}
