package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import slowproof.archive.sheet.Sheet;
import slowproof.metrology.uncertainty.StreamedMonteCarlo;
import slowproof.report.chart.Chart;
import slowproof.report.forecast.ForecastCharts;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.forecast.ErrorAlong;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecasting;
import slowproof.trial.forecast.LineCurves;
import slowproof.trial.forecast.Settings;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineNotPossibleException;
import slowproof.wording.Wording;

/** The page of a line: one piece as a strip that is dark where its error is made, and the answer in two sentences. */
final class LinePage {
    /** One block of pieces: the page shows the analytic answer, which is the same and comes while a slider moves. */
    private static final Settings ANALYTIC = new Settings(Evaluation.USUAL_SEED, StreamedMonteCarlo.BLOCK, false, 1);

    private final Site site;
    private final KnownTrials trials;

    LinePage(Site site) {
        this.site = site;
        this.trials = new KnownTrials(site);
    }

    void install(RoutesConfig routes) {
        routes.get("/trials/{id}/line", this::show);
        routes.get("/trials/{id}/line/rest", this::rest);
        routes.get("/trials/{id}/line/charts", this::charts);
        routes.post("/trials/{id}/line/draft", this::draft);
        new LineDownloads(site, this).install(routes);
    }

    private void show(Context context) {
        Visit visit = Visit.of(context);
        List<Problem> problems = new ArrayList<>();
        // a moving slider wants the answer; what takes longer follows when it rests
        boolean all = context.header("HX-Request") == null;
        LineView view = view(ask(visit, problems), all, visit.wording(), problems);
        site.send(
                visit,
                "line.jte",
                visit.wording(),
                "forecast",
                visit.wording().text("line.title"),
                problems,
                Map.of("view", view));
    }

    private void rest(Context context) {
        Visit visit = Visit.of(context);
        List<Problem> problems = new ArrayList<>();
        LineView view = view(ask(visit, problems), true, visit.wording(), problems);
        site.fragment(visit, "parts/linerest.jte", Map.of("view", view));
    }

    private void charts(Context context) {
        Visit visit = Visit.of(context);
        Asked asked = ask(visit, new ArrayList<>());
        Line line = asked.line();
        LineEvidence evidence = asked.evidence();
        Map<String, Chart> charts = line == null || evidence == null
                ? Map.of()
                : ForecastCharts.of(
                        Forecasting.answer(evidence, line, ANALYTIC), Evaluation.USUAL_SEED, visit.wording());
        site.fragment(visit, "charts.jte", Map.of("charts", charts));
    }

    private void draft(Context context) {
        Visit visit = Visit.of(context);
        Map<String, String> drafts = new HashMap<>();
        visit.fields(LineForm.FIELDS).forEach((field, text) -> drafts.put(kept(field), text));
        site.archive().keepDrafts(BenchPage.owner(visit, context.pathParam("id")), drafts);
        context.status(HttpStatus.NO_CONTENT);
    }

    private static String kept(String field) {
        return "line_" + field;
    }

    /**
     * What a request asks for.
     *
     * @param sheet the trial
     * @param known what is known of it, or null while it has no passes
     * @param material the chosen surface, empty when there is none
     * @param evidence what the trial says of it, or null
     * @param fields texts of the form
     * @param described the line as described, or null when it was not understood
     * @param slider the slider, or null
     * @param line the line with the speed of the slider, or null when it cannot be driven
     */
    record Asked(
            Sheet sheet,
            KnownTrials.@Nullable Known known,
            String material,
            @Nullable LineEvidence evidence,
            Map<String, String> fields,
            @Nullable LineForm described,
            @Nullable CreepSlider slider,
            @Nullable Line line) {}

    /** Reads a request; what is wrong with it is noted. */
    Asked ask(Visit visit, List<Problem> problems) {
        Context context = visit.context();
        Sheet sheet = site.archive().sheet(context.pathParam("id"));
        KnownTrials.Known known = trials.of(sheet, visit.wording());
        if (known == null) {
            return new Asked(sheet, null, "", null, Map.of(), null, null, null);
        }
        String wanted = context.queryParam("material");
        String material = wanted != null && known.materials().contains(wanted)
                ? wanted
                : known.materials().get(0);
        LineEvidence evidence = known.evidence(material);
        Map<String, String> fields = fields(visit, sheet, known, evidence);
        LineForm described = LineForm.read(fields, sheet, visit.wording(), problems);
        if (described == null) {
            return new Asked(sheet, known, material, evidence, fields, null, null, null);
        }
        CreepSlider slider = CreepSlider.of(described, evidence, tried(context, described));
        Line line = described.creepingAt(slider.at().doubleValue()).line(material);
        try {
            line.motions();
        } catch (LineNotPossibleException e) {
            problems.add(new Problem(
                    "length", visit.wording().text("line.too_short", e.figures().toArray())));
            line = null;
        }
        return new Asked(sheet, known, material, evidence, fields, described, slider, line);
    }

    private Map<String, String> fields(Visit visit, Sheet sheet, KnownTrials.Known known, LineEvidence evidence) {
        Map<String, String> fields =
                LineForm.usual(evidence, known.findings().trial().limit(), visit.wording());
        Map<String, String> drafts = site.archive().drafts(BenchPage.owner(visit, sheet.id()));
        for (String field : LineForm.FIELDS) {
            String sent = visit.context().queryParam(field);
            String text = sent != null ? sent : drafts.get(kept(field));
            if (text != null) {
                fields.put(field, text.length() > 60 ? text.substring(0, 60) : text);
            }
        }
        return fields;
    }

    /** Returns the speed of the slider; null when it was put back, or when the line was described anew since. */
    private static @Nullable Double tried(Context context, LineForm described) {
        Double tried = number(context.queryParam("tried"));
        Double then = number(context.queryParam("described"));
        boolean same = then != null && Math.abs(then - described.creepMmPerS()) < 1e-6;
        return same && context.queryParam("back") == null ? tried : null;
    }

    private static @Nullable Double number(@Nullable String text) {
        try {
            double value = text == null ? Double.NaN : Double.parseDouble(text);
            return value > 0 && value < Double.POSITIVE_INFINITY ? Double.valueOf(value) : null;
        } catch (NumberFormatException e) {
            // only a hand-made address has such a speed
            return null;
        }
    }

    private LineView view(Asked asked, boolean all, Wording wording, List<Problem> problems) {
        Line line = asked.line();
        LineEvidence evidence = asked.evidence();
        LineView.Answer answer = null;
        if (line != null && evidence != null && problems.isEmpty()) {
            Forecast forecast =
                    all ? Forecasting.of(evidence, line, ANALYTIC) : Forecasting.answer(evidence, line, ANALYTIC);
            LineCurves curves = LineCurves.of(evidence);
            PieceStrip strip = curves == null
                    ? null
                    : PieceStrip.of(
                            ErrorAlong.of(curves, line.motions().get(0).motion()),
                            line.pieces().get(0).lengthMm(),
                            wording);
            answer = LineView.Answer.of(forecast, strip, wording);
        }
        return new LineView(
                asked.sheet().id(),
                TrialPage.title(asked.sheet(), wording, site.zone()),
                asked.known() == null ? List.of() : asked.known().materials(),
                asked.material(),
                asked.fields(),
                asked.slider(),
                answer,
                query(asked));
    }

    /** Returns the answer for a line without picture. */
    static LineView.Answer answer(LineEvidence evidence, Line line, Wording wording) {
        return LineView.Answer.of(Forecasting.answer(evidence, line, ANALYTIC), null, wording);
    }

    /** Returns what describes a line in an address, by name. */
    static Map<String, String> parameters(Asked asked) {
        Map<String, String> parameters = new LinkedHashMap<>();
        parameters.put("material", asked.material());
        for (String field : LineForm.FIELDS) {
            parameters.put(field, asked.fields().getOrDefault(field, ""));
        }
        CreepSlider slider = asked.slider();
        if (slider != null) {
            parameters.put("described", slider.described().toPlainString());
            parameters.put("tried", slider.at().toPlainString());
        }
        return parameters;
    }

    /** Returns the end of an address that describes a line. */
    static String query(Asked asked) {
        return parameters(asked).entrySet().stream()
                .map(parameter -> parameter.getKey() + "=" + encoded(parameter.getValue()))
                .collect(Collectors.joining("&", "?", ""));
    }

    private static String encoded(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8);
    }
}
