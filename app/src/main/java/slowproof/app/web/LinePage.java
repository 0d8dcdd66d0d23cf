package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.app.text.ForecastText;
import slowproof.archive.sheet.Sheet;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.findings.Material;
import slowproof.trial.forecast.ErrorAlong;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecasting;
import slowproof.trial.forecast.LineCurves;
import slowproof.trial.forecast.Settings;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineNotPossibleException;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceSpec;
import slowproof.wording.LineReply;
import slowproof.wording.Wording;

/** The page of a line: one piece as a strip that is dark where its error is made, and the answer in two sentences. */
public final class LinePage {
    private static final int PARTS = 80;
    private static final double LARGEST = 1e7;

    private final Site site;
    /** The last trial that was looked at: a slider asks for it many times. Shared by requests, replaced as a whole. */
    private volatile @Nullable Known known;

    LinePage(Site site) {
        this.site = site;
    }

    private record Known(String id, long seq, Findings findings) {}

    void install(RoutesConfig routes) {
        routes.get("/trials/{id}/line", this::show);
    }

    /**
     * What the page shows.
     *
     * @param id trial
     * @param title its title
     * @param materials surfaces to choose from
     * @param material the one chosen, empty when there is none
     * @param fields fields of the form by name, as typed
     * @param slowest slowest creep on the slider
     * @param fastest fastest creep on the slider
     * @param strip size of the error made in each part of the piece, 0 to 1
     * @param answer sentences of the answer
     * @param style class of the answer: good, bad, open or none
     * @param where where the error is made, as a sentence
     * @param outside how sure the tolerance is kept
     * @param changes what one change buys
     * @param gaps what the trial does not cover
     */
    public record View(
            String id,
            String title,
            List<String> materials,
            String material,
            Map<String, String> fields,
            String slowest,
            String fastest,
            List<Double> strip,
            List<String> answer,
            String style,
            String where,
            List<String> outside,
            List<String> changes,
            List<String> gaps) {}

    private void show(Context context) {
        Visit visit = Visit.of(context);
        String id = context.pathParam("id");
        Sheet sheet = site.archive().sheet(id);
        Wording wording = visit.wording();
        Findings findings = findings(sheet, wording);
        List<Problem> problems = new ArrayList<>();
        View view = view(context, sheet, findings, wording, problems);
        site.send(visit, "line.jte", wording, "forecast", wording.text("line.title"), problems, Map.of("view", view));
    }

    private @Nullable Findings findings(Sheet sheet, Wording wording) {
        Known last = known;
        if (last != null && last.id.equals(sheet.id()) && last.seq == sheet.lastSeq()) {
            return last.findings;
        }
        Evaluated evaluated = Evaluated.of(sheet, wording, site.zone());
        Findings findings = evaluated.findings();
        if (findings != null) {
            known = new Known(sheet.id(), sheet.lastSeq(), findings);
        }
        return findings;
    }

    private View view(
            Context context, Sheet sheet, @Nullable Findings findings, Wording wording, List<Problem> problems) {
        Map<String, String> fields = Map.of(
                "length", field(context, "length", "2500"),
                "tolerance", field(context, "tolerance", "2"),
                "fast", field(context, "fast", "400"),
                "acceleration", field(context, "acceleration", "500"),
                "creep", field(context, "creep", "35"),
                "creeps", field(context, "creeps", "150"));
        String title = TrialPage.title(sheet, wording, site.zone());
        if (findings == null) {
            return new View(
                    sheet.id(),
                    title,
                    List.of(),
                    "",
                    fields,
                    "1",
                    "2",
                    List.of(),
                    List.of(),
                    "none",
                    "",
                    List.of(),
                    List.of(),
                    List.of());
        }
        List<String> materials =
                findings.materials().stream().map(Material::material).toList();
        String asked = context.queryParam("material");
        String material = asked != null && materials.contains(asked) ? asked : materials.get(0);
        LineEvidence evidence = LineEvidence.of(findings, material, Evaluation.USUAL_SEED);
        double low = Math.max(1, Math.ceil(evidence.slowestMmPerS()));
        double high = Math.max(low + 1, Math.floor(evidence.fastestMmPerS()));
        Forecast forecast = null;
        List<Double> strip = List.of();
        String where = "";
        double[] numbers = new double[6];
        String[] names = {"length", "tolerance", "fast", "acceleration", "creep", "creeps"};
        for (int i = 0; i < names.length; i++) {
            numbers[i] = number(Objects.requireNonNull(fields.get(names[i])));
            if (Double.isNaN(numbers[i])) {
                problems.add(new Problem(names[i], wording.text("line.number", wording.text("line." + names[i]))));
            }
        }
        if (problems.isEmpty()) {
            try {
                Line line = line(material, numbers);
                forecast = Forecasting.of(evidence, line, new Settings(Evaluation.USUAL_SEED, 1, false, 1));
                LineCurves curves = LineCurves.of(evidence);
                if (curves != null) {
                    double[] made = ErrorAlong.of(curves, line.motions().get(0).motion())
                            .inParts(PARTS);
                    strip = shades(made);
                    where = where(made, numbers[0], wording);
                }
            } catch (LineNotPossibleException e) {
                problems.add(new Problem(
                        "length",
                        wording.text("problem." + e.why().key(), e.figures().toArray())));
            }
        }
        Forecast.Figures figures = forecast == null ? null : forecast.figures();
        return new View(
                sheet.id(),
                title,
                materials,
                material,
                fields,
                String.valueOf((long) low),
                String.valueOf((long) high),
                strip,
                forecast == null ? List.of() : LineReply.answer(forecast, wording),
                figures == null ? "none" : style(figures),
                where,
                forecast == null ? List.of() : LineReply.outside(forecast, wording),
                figures == null
                        ? List.of()
                        : figures.changes().stream()
                                .map(change -> ForecastText.change(change, wording))
                                .toList(),
                forecast == null ? List.of() : LineReply.coverage(forecast, wording));
    }

    private static String style(Forecast.Figures figures) {
        return switch (figures.decision()) {
            case CONFORMS -> "good";
            case DOES_NOT_CONFORM -> "bad";
            case UNDECIDED -> "open";
            case SCREENING_ONLY -> "none";
        };
    }

    private static Line line(String material, double[] n) {
        List<LineStep> steps = List.of(
                LineStep.RampTo.of(n[2], n[3]),
                new LineStep.HoldRest(),
                LineStep.RampTo.of(n[4], n[3]),
                new LineStep.HoldMm(n[5]),
                LineStep.RampTo.of(0, n[3]));
        return Line.of(material, PieceSpec.of(n[0], n[1]), steps);
    }

    private static List<Double> shades(double[] made) {
        double most = 0;
        for (double part : made) {
            most = Math.max(most, part);
        }
        List<Double> shades = new ArrayList<>();
        for (double part : made) {
            shades.add(most > 0 ? part / most : 0);
        }
        return shades;
    }

    /** Says in which tenth of the piece most of its error is made, for those who do not see the strip. */
    private static String where(double[] made, double lengthMm, Wording wording) {
        double all = 0;
        double last = 0;
        int tail = made.length / 10;
        for (int i = 0; i < made.length; i++) {
            all += made[i];
            last += i >= made.length - tail ? made[i] : 0;
        }
        return all > 0
                ? wording.text(
                        "line.where",
                        wording.numbers().fixed(100 * last / all, 0),
                        LineReply.mm(lengthMm / 10, wording))
                : "";
    }

    private static String field(Context context, String name, String usual) {
        String value = context.queryParam(name);
        return value == null || value.length() > 40 ? usual : value.strip();
    }

    private static double number(String text) {
        try {
            double value = Double.parseDouble(text.replace(',', '.'));
            return value > 0 && value < LARGEST ? value : Double.NaN;
        } catch (NumberFormatException e) {
            return Double.NaN;
        }
    }
}
