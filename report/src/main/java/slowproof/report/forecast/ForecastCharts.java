package slowproof.report.forecast;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import slowproof.report.chart.Axis;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Place;
import slowproof.report.chart.Stroke;
import slowproof.report.chart.Tone;
import slowproof.trial.forecast.ErrorAlong;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.LineCurves;
import slowproof.trial.line.Line;
import slowproof.trial.line.PieceMotion;
import slowproof.trial.line.PieceSpec;
import slowproof.wording.LineReply;
import slowproof.wording.Wording;

/** How pieces deviate and why, where and when the error is made, and what can be promised at other creep speeds. */
public final class ForecastCharts {
    private final Forecast forecast;
    private final Wording wording;
    private final Forecast.Figures figures;
    private final Map<String, Chart> charts = new LinkedHashMap<>();

    private ForecastCharts(Forecast forecast, Forecast.Figures figures, Wording wording) {
        this.forecast = forecast;
        this.wording = wording;
        this.figures = figures;
    }

    /**
     * Returns the charts of a forecast by their name in files: deviation, sources, speed, error, speed-time, error-time,
     * promise, as far as the forecast has them; none without figures.
     *
     * @param forecast forecast
     * @param seed seed of its draws
     * @param wording language and units
     */
    public static Map<String, Chart> of(Forecast forecast, long seed, Wording wording) {
        LineCurves curves = LineCurves.of(forecast.evidence());
        Forecast.Figures figures = forecast.figures();
        if (curves == null || figures == null) {
            return Map.of();
        }
        ForecastCharts all = new ForecastCharts(forecast, figures, wording);
        Chart deviation = DeviationChart.of(forecast, figures, seed, wording);
        if (deviation != null) {
            all.charts.put("deviation", deviation);
        }
        Chart sources = SourcesChart.of(figures.contributions(), wording);
        if (sources != null) {
            all.charts.put("sources", sources);
        }
        all.alongTheWay(curves);
        all.inTime(curves);
        Chart promise = PromiseChart.of(forecast, figures, seed, wording);
        if (promise != null) {
            all.charts.put("promise", promise);
        }
        return all.charts;
    }

    private void alongTheWay(LineCurves curves) {
        ErrorAlong along =
                ErrorAlong.of(curves, forecast.line().motions().get(0).motion());
        course("speed", "travel", "speed", along, ErrorAlong.Place::travelMm, ErrorAlong.Place::speedMmPerS, List.of());
        course("error", "travel", "error", along, ErrorAlong.Place::travelMm, ErrorAlong.Place::errorMm, List.of());
    }

    /** Creep and stops show in time: a stop, which is a point of the way, becomes a level stretch. */
    private void inTime(LineCurves curves) {
        List<PieceMotion> motions = cycle(forecast.line());
        ErrorAlong along = ErrorAlong.of(curves, motions);
        List<Layer> cuts = new ArrayList<>();
        String name = wording.text("plot.line.cut");
        for (PieceMotion motion : motions.subList(0, motions.size() - 1)) {
            double cut = motion.timeS(motion.size() - 1) - motions.get(0).timeS(0);
            cuts.add(Layer.Guide.at(name, Tone.MUTED, Stroke.DOTTED, true, cut));
            name = "";
        }
        course("speed-time", "time", "speed", along, ErrorAlong.Place::timeS, ErrorAlong.Place::speedMmPerS, cuts);
        course("error-time", "time", "error", along, ErrorAlong.Place::timeS, ErrorAlong.Place::errorMm, cuts);
    }

    /** Returns the pieces of a cycle in their order; of a log, which may hold a shift, the first piece. */
    private static List<PieceMotion> cycle(Line line) {
        PieceSpec piece = line.pieces().get(0);
        List<PieceMotion> motions = line.profile(piece).cut(piece.lengthMm());
        return line.log() == null ? motions : motions.subList(0, 1);
    }

    private void course(
            String key,
            String across,
            String up,
            ErrorAlong along,
            ToDoubleFunction<ErrorAlong.Place> x,
            ToDoubleFunction<ErrorAlong.Place> y,
            List<Layer> guides) {
        List<Place> places = along.places().stream()
                .map(place -> Place.of(x.applyAsDouble(place), y.applyAsDouble(place)))
                .toList();
        String said = up.equals("speed") ? speedSaid(along.places()) : errorSaid(along.places());
        charts.put(key, line("plot.line." + key, said, "plot.line." + across, "plot.line.axis." + up, places, guides));
    }

    private String speedSaid(List<ErrorAlong.Place> places) {
        double most = 0;
        double rest = 0;
        for (int i = 0; i < places.size(); i++) {
            most = Math.max(most, Math.abs(places.get(i).speedMmPerS()));
            if (i > 0 && places.get(i).speedMmPerS() == 0 && places.get(i - 1).speedMmPerS() == 0) {
                rest += places.get(i).timeS() - places.get(i - 1).timeS();
            }
        }
        return wording.text(
                "plot.line.said.speed",
                wording.numbers().plain(most, 3) + " mm/s",
                seconds(rest),
                seconds(places.get(places.size() - 1).timeS()));
    }

    private String seconds(double time) {
        return wording.numbers().plain(time, 3) + " s";
    }

    private String errorSaid(List<ErrorAlong.Place> places) {
        return wording.text(
                "plot.line.said.error",
                LineReply.signed(places.get(places.size() - 1).errorMm(), figures, wording));
    }

    private Chart line(String title, String said, String x, String y, List<Place> places, List<Layer> guides) {
        double low = 0;
        double high = 0;
        double left = Double.POSITIVE_INFINITY;
        double right = Double.NEGATIVE_INFINITY;
        for (Place place : places) {
            low = Math.min(low, place.y());
            high = Math.max(high, place.y());
            left = Math.min(left, place.x());
            right = Math.max(right, place.x());
        }
        double margin = 0.05 * Math.max(high - low, 1e-6);
        List<Layer> layers = new ArrayList<>(guides);
        // a line alone needs no legend: the title names it
        String name = guides.isEmpty() ? "" : wording.text(title);
        layers.add(new Layer.Line(name, Tone.ACCENT, Stroke.SOLID, places));
        return new Chart(
                wording.text(title),
                said,
                Axis.linear(wording.text(x), left, Math.max(right, left + 1e-6)),
                Axis.linear(wording.text(y), low - margin, high + margin),
                wording.numbers().decimalSign(),
                layers);
    }
}
