package slowproof.report.findings;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.report.chart.Axis;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Place;
import slowproof.report.chart.Stroke;
import slowproof.report.chart.Symbol;
import slowproof.report.chart.Tone;
import slowproof.trial.Limit;
import slowproof.trial.curve.CurvePoint;
import slowproof.trial.curve.CurveResult;
import slowproof.trial.curve.ErrorCurve;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Direction;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.FloorSpeed;
import slowproof.trial.findings.Material;
import slowproof.trial.findings.Pass;
import slowproof.trial.note.Quantity;
import slowproof.wording.MaterialAnswer;
import slowproof.wording.Wording;

/** Error against speed of one material: passes, means with U, limit, curve with its band, floor. */
final class SpeedChart {
    /** Significant digits of an estimated speed in the legend. */
    private static final int DIGITS = 3;

    /** Significant digits of the length for which the limit is drawn. */
    private static final int LENGTH_DIGITS = 4;

    private final Findings findings;
    private final Material material;
    private final Wording wording;
    private final List<Layer> layers = new ArrayList<>();
    private final Spans speeds = new Spans();
    private final Spans tested = new Spans();
    private final Spans errors = new Spans().with(0);

    private SpeedChart(Findings findings, Material material, Wording wording) {
        this.findings = findings;
        this.material = material;
        this.wording = wording;
    }

    static Chart of(Findings findings, Material material, Wording wording) {
        return new SpeedChart(findings, material, wording).built();
    }

    private Chart built() {
        List<Condition> conditions = findings.leading(material.material());
        ErrorCurve curve = material.curve() == null ? null : material.curve().curve();
        floor(material.floor(), curve != null);
        if (curve != null) {
            band(curve);
        }
        limit();
        passes();
        if (curve != null) {
            layers.add(new Layer.Line(word("curve"), Tone.ACCENT, Stroke.SOLID, places(curve)));
        }
        material.byDirection().forEach(this::direction);
        means(conditions);
        Axis x = speeds.decades(
                wording.text("plot.axis.speed", wording.units().speed().symbol()));
        untested(x);
        MaterialAnswer answer = new MaterialAnswer(findings, material, wording);
        return new Chart(
                wording.text("plot.error_speed", Wording.shown(material.material())),
                String.join(" ", answer.sentences()),
                x,
                errors.linear(word("axis.error")),
                wording.numbers().decimalSign(),
                layers);
    }

    /** Shades what lies outside the tested speeds, under everything else. */
    private void untested(Axis x) {
        layers.add(0, new Layer.Region(word("untested"), Tone.MUTED, x.low(), tested.low()));
        layers.add(1, new Layer.Region("", Tone.MUTED, tested.high(), x.high()));
    }

    private void floor(FloorSpeed floor, boolean curve) {
        Double low = floor.low();
        Double high = floor.high();
        Double estimate = floor.estimate();
        if (curve && estimate != null && low != null && high != null) {
            layers.add(new Layer.Guide(
                    wording.text("plot.floor", Quantity.mmPerS(rounded(estimate, DIGITS, RoundingMode.HALF_EVEN))),
                    Tone.OPEN,
                    Stroke.SOLID,
                    true,
                    speed(estimate),
                    speed(low),
                    speed(high)));
        } else if (low != null && high != null) {
            layers.add(new Layer.Region(
                    wording.text("plot.bracket", Quantity.mmPerS(low), Quantity.mmPerS(high)),
                    Tone.OPEN,
                    speed(low),
                    speed(high)));
        }
        Double proven = floor.proven();
        if (proven != null) {
            layers.add(Layer.Guide.at(
                    wording.text("plot.promised", Quantity.mmPerS(rounded(proven, DIGITS, RoundingMode.UP))),
                    Tone.OPEN,
                    Stroke.DOTTED,
                    true,
                    speed(proven)));
        }
    }

    private void band(ErrorCurve curve) {
        List<Place> places = places(curve);
        places.forEach(place -> errors.with(place.low(), place.high()));
        layers.add(new Layer.Band(word("band"), Tone.ACCENT, places));
    }

    private List<Place> places(ErrorCurve curve) {
        List<Place> places = new ArrayList<>();
        for (CurvePoint point : curve.grid()) {
            double speed = speed(point.speedMmPerS());
            speeds.with(speed);
            places.add(new Place(speed, 100 * point.error(), 100 * point.low(), 100 * point.high()));
        }
        return places;
    }

    /** A curve of one direction, where the two differ. */
    private void direction(Direction direction, CurveResult result) {
        ErrorCurve curve = result.curve();
        if (curve != null) {
            List<Place> places = places(curve);
            places.forEach(place -> errors.with(place.y()));
            layers.add(new Layer.Line(
                    wording.text("plot.curve_of", wording.direction(direction)),
                    Tone.INK,
                    direction == Direction.FORWARD ? Stroke.DASHED : Stroke.DOTTED,
                    places));
        }
    }

    /** The limit as the floor is judged: with an absolute part it is another one for other lengths. */
    private void limit() {
        Limit limit = findings.trial().limit();
        Double length = findings.judgedAtMm(material.material());
        if (limit == null || length == null) {
            return;
        }
        double height = 100 * limit.permissibleRatio(length);
        errors.with(height, -height);
        String name = limit.absoluteMm() > 0
                ? wording.text("plot.limit_at", Quantity.mm(rounded(length, LENGTH_DIGITS, RoundingMode.HALF_EVEN)))
                : word("limit");
        layers.add(Layer.Guide.at(name, Tone.INK, Stroke.DASHED, false, height));
        layers.add(Layer.Guide.at("", Tone.INK, Stroke.DASHED, false, -height));
    }

    private void passes() {
        List<Place> counted = new ArrayList<>();
        List<Place> left = new ArrayList<>();
        for (Pass pass : findings.passesOf(material.material())) {
            double speed = speed(pass.speedMmPerS());
            speeds.with(speed);
            if (pass.included()) {
                tested.with(speed);
            }
            errors.with(100 * pass.error());
            (pass.included() ? counted : left).add(Place.of(speed, 100 * pass.error()));
        }
        add("pass", Tone.MUTED, Symbol.SPECK, counted);
        add("pass_out", Tone.MUTED, Symbol.CROSS, left);
    }

    private void means(List<Condition> conditions) {
        add("holds", Tone.GOOD, Symbol.DISC, means(conditions, Answer.CONFORMS));
        add("fails", Tone.BAD, Symbol.CROSS, means(conditions, Answer.DOES_NOT_CONFORM));
        add("open", Tone.INK, Symbol.RING, means(conditions, null));
    }

    /** Conditions with one decision; null stands for those without any. */
    private List<Place> means(List<Condition> conditions, @Nullable Answer wanted) {
        List<Place> places = new ArrayList<>();
        for (Condition condition : conditions) {
            Answer decision = condition.decision();
            boolean decided = decision == Answer.CONFORMS || decision == Answer.DOES_NOT_CONFORM;
            if (wanted == null ? !decided : decision == wanted) {
                double mean = 100 * condition.meanError();
                double u = 100 * condition.expandedUncertainty();
                errors.with(mean - u, mean + u);
                places.add(new Place(speed(condition.key().speedMmPerS()), mean, mean - u, mean + u));
            }
        }
        return places;
    }

    private void add(String key, Tone tone, Symbol symbol, List<Place> places) {
        if (!places.isEmpty()) {
            layers.add(new Layer.Points(word(key), tone, symbol, places));
        }
    }

    private static double rounded(double value, int digits, RoundingMode way) {
        return BigDecimal.valueOf(value).round(new MathContext(digits, way)).doubleValue();
    }

    private double speed(double speedMmPerS) {
        return wording.units().speed().fromMmPerS(speedMmPerS);
    }

    private String word(String key) {
        return wording.text("plot." + key);
    }
}
