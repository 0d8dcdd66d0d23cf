package slowproof.report.forecast;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.report.chart.Axis;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Place;
import slowproof.report.chart.Stroke;
import slowproof.report.chart.Tone;
import slowproof.trial.forecast.CycleChanges;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.PromiseCurve;
import slowproof.trial.note.Quantity;
import slowproof.wording.LineReply;
import slowproof.wording.Wording;

/** What can be promised at other creep speeds; speeds at which the trial does not cover the line are shaded. */
final class PromiseChart {
    private static final double MARGIN = 0.05;

    /** What is not covered may stand so many times higher than all that is, before the chart cuts it off. */
    private static final double HIGHEST = 2;

    private PromiseChart() {}

    /** Returns the chart, or null where the line has no creep to change. */
    static @Nullable Chart of(Forecast forecast, Forecast.Figures figures, long seed, Wording wording) {
        List<PromiseCurve.Point> points = PromiseCurve.of(forecast.evidence(), forecast.line(), seed);
        Double creep = CycleChanges.creepMmPerS(forecast.line().cycle());
        if (creep == null
                || points.stream()
                                .filter(point -> !Double.isNaN(point.toleranceMm()))
                                .count()
                        < 2) {
            return null;
        }
        List<Layer> layers = new ArrayList<>(uncovered(points, wording));
        Double tolerance = forecast.line().pieces().get(0).halfToleranceMm();
        if (tolerance != null) {
            layers.add(Layer.Guide.at(wording.text("plot.line.tolerance"), Tone.INK, Stroke.DASHED, false, tolerance));
        }
        layers.add(Layer.Guide.at(wording.text("plot.line.now"), Tone.MUTED, Stroke.DOTTED, true, creep));
        List<Place> places = points.stream()
                .map(point -> Place.of(point.creepMmPerS(), point.toleranceMm()))
                .toList();
        String title = wording.text("plot.line.promise");
        layers.add(new Layer.Line(title, Tone.ACCENT, Stroke.SOLID, places));
        double high = highest(points, tolerance == null ? 0 : tolerance);
        return new Chart(
                title,
                said(points, creep, figures.promises().toleranceMm(), wording),
                Axis.decades(
                        wording.text("plot.line.axis.creep"),
                        points.get(0).creepMmPerS(),
                        points.get(points.size() - 1).creepMmPerS()),
                Axis.linear(wording.text("plot.line.axis.promise"), -MARGIN * high, (1 + MARGIN) * high),
                wording.numbers().decimalSign(),
                layers);
    }

    private static String said(List<PromiseCurve.Point> points, double creep, double promised, Wording wording) {
        PromiseCurve.Point least = points.stream()
                .filter(point -> !Double.isNaN(point.toleranceMm()))
                .min(Comparator.comparingDouble(PromiseCurve.Point::toleranceMm))
                .orElseThrow();
        return wording.text(
                "plot.line.said.promise",
                LineReply.mm(promised, wording),
                wording.quantity(Quantity.mmPerS(creep)),
                LineReply.mm(least.toleranceMm(), wording),
                wording.quantity(Quantity.mmPerS(round(least.creepMmPerS()))));
    }

    private static double round(double speed) {
        return BigDecimal.valueOf(speed).round(new MathContext(2)).doubleValue();
    }

    private static double highest(List<PromiseCurve.Point> points, double tolerance) {
        double all = tolerance;
        double covered = tolerance;
        for (PromiseCurve.Point point : points) {
            if (!Double.isNaN(point.toleranceMm())) {
                all = Math.max(all, point.toleranceMm());
                covered = point.covered() ? Math.max(covered, point.toleranceMm()) : covered;
            }
        }
        return covered > 0 ? Math.min(all, HIGHEST * covered) : all;
    }

    /** Shades stretches without cover, each to half way to the next speed that has it. */
    private static List<Layer> uncovered(List<PromiseCurve.Point> points, Wording wording) {
        List<Layer> regions = new ArrayList<>();
        String name = wording.text("plot.line.uncovered");
        int last = points.size() - 1;
        for (int from = 0; from <= last; from++) {
            if (points.get(from).covered()) {
                continue;
            }
            int to = from;
            while (to < last && !points.get(to + 1).covered()) {
                to++;
            }
            regions.add(new Layer.Region(
                    name,
                    Tone.MUTED,
                    between(points, Math.max(0, from - 1), from),
                    between(points, to, Math.min(last, to + 1))));
            name = "";
            from = to;
        }
        return regions;
    }

    private static double between(List<PromiseCurve.Point> points, int one, int other) {
        return Math.sqrt(points.get(one).creepMmPerS() * points.get(other).creepMmPerS());
    }
}
