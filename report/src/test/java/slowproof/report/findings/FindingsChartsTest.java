package slowproof.report.findings;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Place;
import slowproof.trial.Limit;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.FloorSpeed;
import slowproof.trial.findings.Material;
import slowproof.trial.findings.Pass;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.DemoPlant;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.SimulatedTrial;
import slowproof.wording.Units;
import slowproof.wording.Wording;

/** Charts of an invented trial say the same as its findings. */
class FindingsChartsTest {
    private static final Findings FINDINGS = findings();

    private static Findings findings() {
        BenchPlan plan = DemoPlant.plan(Instant.EPOCH);
        Limit limit = Limit.of(DemoPlant.LIMIT_RATIO, DemoPlant.LIMIT_MM);
        return Evaluation.of(SimulatedTrial.of("invented", plan, Bench.read(plan, RandomStreams.of(1)), limit));
    }

    private static Chart chart(FindingsCharts.Kind kind, Wording wording) {
        return FindingsCharts.of(FINDINGS, wording).stream()
                .filter(drawn -> drawn.kind() == kind
                        && drawn.material().equals(FINDINGS.materials().get(0).material()))
                .findFirst()
                .orElseThrow()
                .chart();
    }

    private static <T extends Layer> List<T> layers(Chart chart, Class<T> kind) {
        return chart.layers().stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    @Test
    void everyMaterialHasItsThreeCharts() {
        assertThat(FindingsCharts.of(FINDINGS, Wording.of(Locale.ENGLISH)))
                .hasSize(3 * FINDINGS.materials().size());
    }

    @Test
    void errorAgainstSpeedHoldsPassesMeansCurveAndFloor() {
        Material material = FINDINGS.materials().get(0);
        List<Pass> passes = FINDINGS.passesOf(material.material());
        Chart chart = chart(FindingsCharts.Kind.ERROR_SPEED, Wording.of(Locale.ENGLISH));
        assertThat(chart.x().logarithmic()).isTrue();
        assertThat(chart.x().label()).contains("mm/s");
        assertThat(chart.y().label()).contains("%");
        List<Layer.Points> points = layers(chart, Layer.Points.class);
        assertThat(points.get(0).places()).hasSize(passes.size());
        assertThat(points.stream()
                        .skip(1)
                        .mapToInt(layer -> layer.places().size())
                        .sum())
                .isEqualTo(FINDINGS.leading(material.material()).size());
        FloorSpeed floor = material.floor();
        Layer.Guide marked = layers(chart, Layer.Guide.class).get(0);
        assertThat(marked.at()).isEqualTo(floor.estimate());
        assertThat(marked.low()).isEqualTo(floor.low());
        assertThat(marked.high()).isEqualTo(floor.high());
        assertThat(layers(chart, Layer.Band.class)).hasSize(1);
        assertThat(layers(chart, Layer.Line.class)).hasSize(1);
    }

    @Test
    void speedsOutsideTheTestedOnesAreShaded() {
        Chart chart = chart(FindingsCharts.Kind.ERROR_SPEED, Wording.of(Locale.ENGLISH));
        double[] tested = FINDINGS.passesOf(FINDINGS.materials().get(0).material()).stream()
                .mapToDouble(Pass::speedMmPerS)
                .sorted()
                .toArray();
        List<Layer.Region> regions = layers(chart, Layer.Region.class);
        assertThat(regions).hasSize(2);
        assertThat(regions.get(0).name()).isEqualTo("not tested");
        assertThat(regions.get(0).low()).isEqualTo(chart.x().low());
        assertThat(regions.get(0).high()).isEqualTo(tested[0]);
        assertThat(regions.get(1).low()).isEqualTo(tested[tested.length - 1]);
        assertThat(regions.get(1).high()).isEqualTo(chart.x().high());
    }

    @Test
    void theLimitNamesTheLengthAsTheTextDoes() {
        Chart chart = chart(FindingsCharts.Kind.ERROR_SPEED, Wording.of(Locale.ENGLISH));
        assertThat(layers(chart, Layer.Guide.class).stream().map(Layer::name)).contains("limit for 900 mm");
    }

    @Test
    void everyPlaceLiesWithinTheAxes() {
        for (FindingsCharts.Drawn drawn : FindingsCharts.of(FINDINGS, Wording.of(Locale.ENGLISH))) {
            Chart chart = drawn.chart();
            for (Layer.Points points : layers(chart, Layer.Points.class)) {
                for (Place place : points.places()) {
                    assertThat(place.x())
                            .as(chart.title())
                            .isBetween(chart.x().low(), chart.x().high());
                    assertThat(place.y())
                            .as(chart.title())
                            .isBetween(chart.y().low(), chart.y().high());
                }
            }
        }
    }

    @Test
    void residualsOfASeriesAndDirectionAddUpToNothing() {
        Chart chart = chart(FindingsCharts.Kind.RESIDUALS, Wording.of(Locale.ENGLISH));
        double sum = layers(chart, Layer.Points.class).stream()
                .filter(layer -> !layer.name().equals(Wording.of(Locale.ENGLISH).text("plot.flagged")))
                .flatMap(layer -> layer.places().stream())
                .mapToDouble(Place::y)
                .sum();
        assertThat(sum).isCloseTo(0, org.assertj.core.data.Offset.offset(1e-9));
    }

    @Test
    void unitsAndLanguageAreTheReaders() {
        Wording german = Wording.of(Locale.GERMAN, new Units(Units.Length.MM, Units.Speed.M_PER_MIN));
        Chart chart = chart(FindingsCharts.Kind.ERROR_SPEED, german);
        assertThat(chart.x().label()).isEqualTo("Geschwindigkeit in m/min, logarithmisch");
        assertThat(chart.decimalSign()).isEqualTo(',');
        Layer.Guide floor = layers(chart, Layer.Guide.class).get(0);
        assertThat(floor.at())
                .isCloseTo(
                        FINDINGS.materials().get(0).floor().estimate() * 0.06,
                        org.assertj.core.data.Offset.offset(1e-9));
    }
}
