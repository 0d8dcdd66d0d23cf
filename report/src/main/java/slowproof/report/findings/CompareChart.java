package slowproof.report.findings;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
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
 * little beside each other, so that their bars can be told apart.
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
            line.levels().stream()
                    .sorted(Comparator.comparingDouble(Level::speedMmPerS))
                    .forEach(level -> {
                        double speed = wording.units().speed().fromMmPerS(level.speedMmPerS()) * beside;
                        double half = halfWidth(level);
                        places.add(new Place(
                                speed, 100 * level.mean(), 100 * (level.mean() - half), 100 * (level.mean() + half)));
                        speeds.with(speed);
                        errors.with(100 * (level.mean() - half), 100 * (level.mean() + half));
                    });
            layers.add(new Layer.Line("", TONES.get(i), STROKES.get(i), places));
            layers.add(new Layer.Points(names.get(i), TONES.get(i), SYMBOLS.get(i), places));
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

    /** Half of the 95 % interval of a mean, all that is known of its uncertainty included. */
    static double halfWidth(Level level) {
        List<Component> parts = new ArrayList<>();
        Double scatter = level.scatter();
        if (scatter != null) {
            parts.add(new Component("scatter", scatter, level.freedom()));
        }
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
