package slowproof.report.findings;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Distributions;
import slowproof.metrology.uncertainty.Combined;
import slowproof.metrology.uncertainty.Component;
import slowproof.report.chart.Axis;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Place;
import slowproof.report.chart.Stroke;
import slowproof.report.chart.Symbol;
import slowproof.report.chart.Tone;
import slowproof.trial.compare.Comparison;
import slowproof.trial.compare.Level;
import slowproof.trial.compare.Line;
import slowproof.wording.Wording;

/**
 * Error against speed of several results side by side, each mean with its 95 % interval. Results at one speed are drawn a
 * little beside each other, so that their bars can be told apart. A mean of which nothing was repeated has no bar: what its
 * reference and its resolution leave open is only a part of what is unknown, and would look like all of it. It is an open
 * triangle with a legend of its own.
 */
public final class CompareChart {
    /** How many lines can be told apart. */
    public static final int MOST = 4;

    private static final double CONFIDENCE = 0.95;

    /** By how much neighbours stand apart on the logarithmic axis, as a ratio of speeds. */
    private static final double BESIDE = 1.015;

    private static final List<Tone> TONES = List.of(Tone.FIRST, Tone.SECOND, Tone.THIRD, Tone.FOURTH);
    private static final List<Symbol> SYMBOLS = List.of(Symbol.DISC, Symbol.RING, Symbol.DIAMOND, Symbol.CROSS);
    private static final List<Stroke> STROKES = List.of(Stroke.SOLID, Stroke.DASHED, Stroke.DOTTED, Stroke.SOLID);

    private CompareChart() {}

    /**
     * Returns the chart of a comparison.
     *
     * @param comparison at most {@link #MOST} lines
     * @param names name of each line for the legend
     * @param title title
     * @param description what it says, in words
     * @param wording language and units, sentences of the pages included
     */
    public static Chart of(
            Comparison comparison, List<String> names, String title, String description, Wording wording) {
        Spans speeds = new Spans();
        Spans errors = new Spans().with(0);
        List<Layer> layers = new ArrayList<>();
        for (int i = 0; i < comparison.lines().size(); i++) {
            Line line = comparison.lines().get(i);
            double beside = Math.pow(BESIDE, i - (comparison.lines().size() - 1) / 2.0);
            List<Place> places = new ArrayList<>();
            List<Place> repeated = new ArrayList<>();
            List<Place> once = new ArrayList<>();
            line.levels().stream()
                    .sorted(Comparator.comparingDouble(Level::speedMmPerS))
                    .forEach(level -> {
                        double speed = wording.units().speed().fromMmPerS(level.speedMmPerS()) * beside;
                        double mean = 100 * level.mean();
                        Double half = halfWidth(level);
                        Place place = half == null
                                ? Place.of(speed, mean)
                                : new Place(speed, mean, mean - 100 * half, mean + 100 * half);
                        places.add(place);
                        (half == null ? once : repeated).add(place);
                        speeds.with(speed);
                        errors.with(mean);
                        if (half != null) {
                            errors.with(place.low(), place.high());
                        }
                    });
            layers.add(new Layer.Line("", TONES.get(i), STROKES.get(i), places));
            if (!repeated.isEmpty()) {
                layers.add(new Layer.Points(names.get(i), TONES.get(i), SYMBOLS.get(i), repeated));
            }
            if (!once.isEmpty()) {
                layers.add(new Layer.Points(
                        wording.text("plot.not_repeated", Wording.shown(names.get(i))),
                        TONES.get(i),
                        Symbol.TRIANGLE,
                        once));
            }
        }
        Axis x = speeds.decades(
                wording.text("plot.axis.speed", wording.units().speed().symbol()));
        return new Chart(
                title,
                description,
                x,
                errors.linear(wording.text("plot.axis.error")),
                wording.numbers().decimalSign(),
                layers);
    }

    /** Half of the 95 % interval of a mean, all that is known of its uncertainty included; null when nothing was repeated. */
    static @Nullable Double halfWidth(Level level) {
        Double scatter = level.scatter();
        if (scatter == null) {
            return null;
        }
        List<Component> parts = new ArrayList<>();
        parts.add(new Component("scatter", scatter, level.freedom()));
        Double reference = level.reference();
        parts.add(new Component("reference", reference == null ? 0 : reference, Double.POSITIVE_INFINITY));
        parts.add(new Component("others", level.other(), Double.POSITIVE_INFINITY));
        Combined combined = Combined.of(parts);
        double u = combined.standardUncertainty();
        return u == 0
                ? 0
                : u * Distributions.studentQuantile((1 + CONFIDENCE) / 2, combined.effectiveDegreesOfFreedom());
    }
}
