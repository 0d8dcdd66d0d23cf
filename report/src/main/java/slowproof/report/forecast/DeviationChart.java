package slowproof.report.forecast;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Interval;
import slowproof.metrology.Refinement;
import slowproof.report.chart.Axis;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Place;
import slowproof.report.chart.Stroke;
import slowproof.report.chart.Tone;
import slowproof.trial.forecast.Deviations;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.line.PieceSpec;
import slowproof.wording.LineReply;
import slowproof.wording.Wording;

/**
 * How pieces deviate. What they differ by among each other is a full line, the mean that all of them share a hatched stripe
 * as wide as its uncertainty, and the next single piece, which knows neither, a broken line.
 */
final class DeviationChart {
    /** A density below this share of its top is not worth room on the axis. */
    private static final double LEAST = 0.002;

    private static final double MARGIN = 0.04;
    private static final double ABOVE = 1.08;

    private DeviationChart() {}

    /** Returns the chart, or null where pieces do not differ or nothing can be said. */
    static @Nullable Chart of(Forecast forecast, Forecast.Figures figures, long seed, Wording wording) {
        Deviations found = Deviations.of(forecast, seed);
        if (found == null) {
            return null;
        }
        List<Refinement.Point> pieces = found.pieceCurve();
        List<Refinement.Point> next = found.nextCurve();
        Interval mean = found.meanIntervalMm();
        Set<Double> limits = limits(forecast);
        double top = Math.max(top(pieces), top(next));
        double low = mean.low();
        double high = mean.high();
        for (List<Refinement.Point> curve : List.of(pieces, next)) {
            double least = LEAST * top(curve);
            for (Refinement.Point point : curve) {
                if (point.y() > least) {
                    low = Math.min(low, point.x());
                    high = Math.max(high, point.x());
                }
            }
        }
        for (double limit : limits) {
            low = Math.min(low, limit);
            high = Math.max(high, limit);
        }
        double margin = MARGIN * (high - low);
        List<Layer> layers = new ArrayList<>();
        layers.add(new Layer.Guide(
                wording.text(bounded(figures) ? "plot.line.mean.bounded" : "plot.line.mean"),
                Tone.OPEN,
                Stroke.SOLID,
                true,
                found.meanMm(),
                mean.low(),
                mean.high()));
        String name = wording.text("plot.line.limits");
        for (double limit : limits) {
            layers.add(Layer.Guide.at(name, Tone.INK, Stroke.DOTTED, true, limit));
            name = "";
        }
        layers.add(new Layer.Line(wording.text("plot.line.next"), Tone.SECOND, Stroke.DASHED, places(next)));
        layers.add(new Layer.Line(wording.text("plot.line.pieces"), Tone.ACCENT, Stroke.SOLID, places(pieces)));
        String across = forecast.line().cutsOnSensor() ? "plot.line.axis.cut" : "plot.line.axis.measured";
        return new Chart(
                wording.text("plot.line.deviation"),
                wording.text(
                        "plot.line.said.deviation",
                        LineReply.signed(found.meanMm(), figures, wording),
                        LineReply.signed(mean.low(), figures, wording),
                        LineReply.signed(mean.high(), figures, wording),
                        LineReply.uncertain(figures.spreadMm(), wording),
                        LineReply.signed(figures.pieceInterval().low(), figures, wording),
                        LineReply.signed(figures.pieceInterval().high(), figures, wording)),
                Axis.linear(wording.text(across), low - margin, high + margin),
                Axis.linear(wording.text("plot.line.axis.density"), 0, ABOVE * top),
                wording.numbers().decimalSign(),
                layers);
    }

    /** Whether the interval of the mean holds bounds of what the trial does not cover beside what is known by chance only. */
    private static boolean bounded(Forecast.Figures figures) {
        return figures.coverage().lossMm() + figures.coverage().gainMm() > 0;
    }

    private static Set<Double> limits(Forecast forecast) {
        Set<Double> limits = new LinkedHashSet<>();
        for (PieceSpec piece : forecast.line().pieces()) {
            Double lower = piece.lowerMm();
            Double upper = piece.upperMm();
            if (lower != null && upper != null) {
                limits.add(lower);
                limits.add(upper);
            }
        }
        return limits;
    }

    private static double top(List<Refinement.Point> curve) {
        return curve.stream().mapToDouble(Refinement.Point::y).max().orElse(0);
    }

    private static List<Place> places(List<Refinement.Point> curve) {
        return curve.stream().map(point -> Place.of(point.x(), point.y())).toList();
    }
}
