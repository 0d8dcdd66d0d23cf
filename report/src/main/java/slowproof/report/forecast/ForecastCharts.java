package slowproof.report.forecast;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.report.chart.Axis;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Place;
import slowproof.report.chart.Stroke;
import slowproof.report.chart.Tone;
import slowproof.trial.forecast.CycleChanges;
import slowproof.trial.forecast.ErrorAlong;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecasting;
import slowproof.trial.forecast.LineCurves;
import slowproof.wording.LineReply;
import slowproof.wording.Wording;

/** Where along a piece its error is made, and what can be promised at other creep speeds. */
public final class ForecastCharts {
    private static final int CREEP_SPEEDS = 25;

    private ForecastCharts() {}

    /**
     * Returns the charts of a forecast by their name in files: speed, error, promise; none without figures.
     *
     * @param forecast forecast
     * @param seed seed of its draws
     * @param wording language and units
     */
    public static Map<String, Chart> of(Forecast forecast, long seed, Wording wording) {
        Map<String, Chart> charts = new LinkedHashMap<>();
        LineCurves curves = LineCurves.of(forecast.evidence());
        if (curves == null || forecast.figures() == null) {
            return charts;
        }
        ErrorAlong along =
                ErrorAlong.of(curves, forecast.line().motions().get(0).motion());
        String answer = String.join(" ", LineReply.answer(forecast, wording));
        List<Place> speed = new ArrayList<>();
        List<Place> error = new ArrayList<>();
        for (ErrorAlong.Place place : along.places()) {
            speed.add(Place.of(place.travelMm(), place.speedMmPerS()));
            error.add(Place.of(place.travelMm(), place.errorMm()));
        }
        String travel = wording.text("plot.line.travel");
        charts.put("speed", line("plot.line.speed", answer, travel, "plot.line.axis.speed", speed, List.of(), wording));
        charts.put("error", line("plot.line.error", answer, travel, "plot.line.axis.error", error, List.of(), wording));
        List<Place> promise = promise(forecast, seed);
        if (promise.size() > 1) {
            List<Layer> guides = new ArrayList<>();
            Double tolerance = forecast.line().pieces().get(0).halfToleranceMm();
            if (tolerance != null) {
                guides.add(
                        Layer.Guide.at(wording.text("plot.line.tolerance"), Tone.INK, Stroke.DASHED, false, tolerance));
            }
            Double creep = CycleChanges.creepMmPerS(forecast.line().cycle());
            if (creep != null) {
                guides.add(Layer.Guide.at(wording.text("plot.line.now"), Tone.MUTED, Stroke.DOTTED, true, creep));
            }
            charts.put(
                    "promise",
                    line(
                            "plot.line.promise",
                            answer,
                            wording.text("plot.line.axis.creep"),
                            "plot.line.axis.promise",
                            promise,
                            guides,
                            wording));
        }
        return charts;
    }

    private static List<Place> promise(Forecast forecast, long seed) {
        double low = forecast.evidence().slowestMmPerS();
        double high = forecast.evidence().fastestMmPerS();
        Double creep = CycleChanges.creepMmPerS(forecast.line().cycle());
        if (creep == null || !(high > low)) {
            return List.of();
        }
        double[] speeds = new double[CREEP_SPEEDS];
        for (int i = 0; i < speeds.length; i++) {
            speeds[i] = low * Math.pow(high / low, (double) i / (speeds.length - 1));
        }
        double[] promised = Forecasting.promiseAgainstCreep(forecast.evidence(), forecast.line(), speeds, seed);
        List<Place> places = new ArrayList<>();
        for (int i = 0; i < speeds.length; i++) {
            if (!Double.isNaN(promised[i])) {
                places.add(Place.of(speeds[i], promised[i]));
            }
        }
        return places;
    }

    private static Chart line(
            String title, String answer, String x, String y, List<Place> places, List<Layer> guides, Wording wording) {
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
        for (Layer layer : guides) {
            if (layer instanceof Layer.Guide guide && !guide.upright()) {
                high = Math.max(high, guide.at());
            }
        }
        double margin = 0.05 * Math.max(high - low, 1e-6);
        List<Layer> layers = new ArrayList<>(guides);
        layers.add(new Layer.Line(wording.text(title), Tone.ACCENT, Stroke.SOLID, places));
        boolean decades = !guides.isEmpty() && left > 0;
        Axis across = decades ? Axis.decades(x, left, right) : Axis.linear(x, left, Math.max(right, left + 1e-6));
        return new Chart(
                wording.text(title),
                answer,
                across,
                Axis.linear(wording.text(y), low - margin, high + margin),
                wording.numbers().decimalSign(),
                layers);
    }
}
