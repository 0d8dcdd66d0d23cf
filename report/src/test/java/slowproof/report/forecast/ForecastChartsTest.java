package slowproof.report.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Place;
import slowproof.report.chart.Svg;
import slowproof.trial.Limit;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.forecast.Contribution;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecasting;
import slowproof.trial.forecast.Settings;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceSpec;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.DemoPlant;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.SimulatedTrial;
import slowproof.wording.Wording;

/** Charts of an invented line say the same as its forecast. */
class ForecastChartsTest {
    private static final Wording ENGLISH = Wording.of(Locale.ENGLISH);
    private static final LineEvidence EVIDENCE = evidence();
    private static final Forecast FORECAST = forecast(1, 2.0);
    private static final Map<String, Chart> CHARTS = ForecastCharts.of(FORECAST, 1, ENGLISH);

    private static LineEvidence evidence() {
        BenchPlan plan = DemoPlant.plan(Instant.EPOCH);
        Limit limit = Limit.of(DemoPlant.LIMIT_RATIO, DemoPlant.LIMIT_MM);
        var findings = Evaluation.of(SimulatedTrial.of("invented", plan, Bench.read(plan, RandomStreams.of(1)), limit));
        return LineEvidence.of(findings, findings.materials().get(0).material(), Evaluation.USUAL_SEED);
    }

    private static Forecast forecast(int perCycle, double tolerance) {
        Line one = Line.of(
                "invented",
                PieceSpec.of(2500, tolerance),
                List.of(
                        LineStep.RampTo.of(400, 500),
                        new LineStep.HoldRest(),
                        LineStep.RampTo.of(35, 500),
                        new LineStep.HoldMm(100),
                        LineStep.RampTo.of(0, 500),
                        new LineStep.Stop(1.5)));
        Line line = new Line(
                one.title(),
                null,
                one.pieces(),
                true,
                perCycle,
                one.cycle(),
                null,
                0.0005,
                0.002,
                null,
                null,
                "",
                0.95,
                0.95);
        return Forecasting.answer(EVIDENCE, line, new Settings(1, 2, false, 1));
    }

    private static Chart chart(String key) {
        return Objects.requireNonNull(CHARTS.get(key), key);
    }

    private static <T extends Layer> List<T> layers(Chart chart, Class<T> kind) {
        return chart.layers().stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    @Test
    void theNamesOfTheChartsStay() {
        assertThat(CHARTS.keySet())
                .containsExactly("deviation", "sources", "speed", "error", "speed-time", "error-time", "promise");
    }

    @Test
    void spreadUncertaintyAndNextPieceAreThreeThingsWithNamesOfTheirOwn() {
        Chart chart = chart("deviation");
        Forecast.Figures figures = Objects.requireNonNull(FORECAST.figures());
        List<Layer.Guide> guides = layers(chart, Layer.Guide.class);
        Layer.Guide mean = guides.get(0);
        assertThat(mean.at()).isEqualTo(Objects.requireNonNull(figures.deviationMm()));
        assertThat(mean.hasInterval()).isTrue();
        assertThat(mean.high() - mean.low())
                .isCloseTo(
                        figures.meanInterval().width(),
                        within(0.01 * figures.meanInterval().width()));
        assertThat(guides.stream().skip(1).map(Layer.Guide::at)).containsExactly(-2.0, 2.0);
        List<Layer.Line> lines = layers(chart, Layer.Line.class);
        assertThat(lines).hasSize(2);
        Layer.Line next = lines.get(0);
        Layer.Line pieces = lines.get(1);
        assertThat(next.stroke()).isNotEqualTo(pieces.stroke());
        // the next piece does not know the mean: its density is wider, so its top is lower
        assertThat(top(next)).isLessThan(top(pieces));
        assertThat(chart.layers().stream().map(Layer::name).filter(name -> !name.isEmpty()))
                .doesNotHaveDuplicates()
                .anyMatch(name -> name.contains("piece to piece"))
                .anyMatch(name -> name.contains("same for all pieces"))
                .anyMatch(name -> name.contains("next single piece"));
        assertThat(chart.x().low()).isLessThan(-2);
        assertThat(chart.x().high()).isGreaterThan(2);
    }

    private static double top(Layer.Line line) {
        return line.places().stream().mapToDouble(Place::y).max().orElseThrow();
    }

    @Test
    void everyChartSaysItsOwnFindingInWords() {
        assertThat(CHARTS.values().stream().map(Chart::description)).doesNotContain("");
        assertThat(chart("deviation").description()).contains("the same for all pieces", "From piece to piece", "mm");
        assertThat(chart("sources").description()).contains("% of the variance");
        assertThat(chart("speed-time").description()).contains("400 mm/s", "1.5 s of");
        assertThat(chart("promise").description()).contains("35 mm/s");
    }

    @Test
    void everySourceHasItsBarInTheOrderOfSizeAndSharedOnesAreHatched() {
        Chart chart = chart("sources");
        List<Contribution> parts = Objects.requireNonNull(FORECAST.figures()).contributions();
        List<Layer.Bar> bars = new ArrayList<>();
        for (Layer.Bars layer : layers(chart, Layer.Bars.class)) {
            for (Layer.Bar bar : layer.bars()) {
                Contribution part = parts.get(bar.row());
                assertThat(bar.length()).isEqualTo(part.standardUncertaintyMm());
                assertThat(layer.hatched()).isEqualTo(part.source().shared());
                bars.add(bar);
            }
        }
        assertThat(bars).hasSize(parts.size());
        assertThat(layers(chart, Layer.Bars.class)).hasSize(2);
        assertThat(chart.y().high()).isEqualTo(parts.size());
    }

    @Test
    void aStopIsLevelInTimeAndOnePointOfTheWay() {
        List<Place> speed = layers(chart("speed-time"), Layer.Line.class).get(0).places();
        List<Place> error = layers(chart("error-time"), Layer.Line.class).get(0).places();
        int last = speed.size() - 1;
        assertThat(speed.get(last).x() - speed.get(last - 1).x()).isCloseTo(1.5, within(1e-9));
        assertThat(speed.get(last).y()).isZero();
        assertThat(speed.get(last - 1).y()).isZero();
        assertThat(error.get(last).y()).isEqualTo(error.get(last - 1).y());
        List<Place> along = layers(chart("error"), Layer.Line.class).get(0).places();
        assertThat(along.get(along.size() - 1).x()).isCloseTo(2500, within(1e-6));
        assertThat(along.get(along.size() - 1).y()).isEqualTo(error.get(last).y());
        assertThat(chart("speed-time").x()).isEqualTo(chart("error-time").x());
        assertThat(chart("speed-time").x().label()).contains(" s");
    }

    @Test
    void theCutsWithinACycleAreMarked() {
        Map<String, Chart> two = ForecastCharts.of(forecast(2, 2.0), 1, ENGLISH);
        Chart time = Objects.requireNonNull(two.get("speed-time"));
        List<Layer.Guide> cuts = layers(time, Layer.Guide.class);
        assertThat(cuts).hasSize(1);
        assertThat(cuts.get(0).upright()).isTrue();
        // 0.8 s and 160 mm up, then at 400 mm/s to 2500 mm
        assertThat(cuts.get(0).at()).isCloseTo(0.8 + (2500 - 160) / 400.0, within(1e-6));
        assertThat(layers(chart("speed-time"), Layer.Guide.class)).isEmpty();
    }

    @Test
    void germanChartsSayEverythingInGerman() {
        Wording german = Wording.of(Locale.GERMAN);
        for (Chart chart : ForecastCharts.of(FORECAST, 1, german).values()) {
            assertThat(chart.decimalSign()).isEqualTo(',');
            String svg = Svg.headed(chart, 420, 300);
            assertThat(svg).contains(chart.x().label());
            assertThat(svg).doesNotContain("piece", "speed in", "uncertainty");
        }
    }
}
