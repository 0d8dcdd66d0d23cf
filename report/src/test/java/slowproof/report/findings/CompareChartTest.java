package slowproof.report.findings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Place;
import slowproof.report.chart.Symbol;
import slowproof.trial.Reference;
import slowproof.trial.compare.Comparison;
import slowproof.trial.compare.Level;
import slowproof.trial.compare.Line;
import slowproof.trial.findings.Direction;
import slowproof.wording.Wording;

class CompareChartTest {
    private static Level level(double speed, double mean, Double scatter, Double reference) {
        return new Level(speed, 500.0, Direction.BOTH, 900, 6, mean, scatter, 4, reference, 0, false);
    }

    private static Line line(Level... levels) {
        return new Line("a", "felt", "", Reference.unknown(), List.of(levels));
    }

    @Test
    void barsAreIntervalsAndNeighboursStandApart() {
        Chart chart = CompareChart.of(
                Comparison.of(List.of(
                        line(level(50, 0.001, 1e-4, null), level(20, 0.002, 1e-4, null)),
                        line(level(50, 0.003, 1e-9, 2e-4)))),
                List.of("one", "two"),
                "title",
                "says",
                Wording.of(Locale.ENGLISH));
        List<Place> one = ((Layer.Points) chart.layers().get(1)).places();
        List<Place> two = ((Layer.Points) chart.layers().get(3)).places();
        assertThat(one).extracting(Place::y).as("speed ascending").containsExactly(0.2, 0.1);
        // Student, 97.5 %, 4 degrees of freedom: 2.776 (tables); in percent
        assertThat(one.get(1).high() - one.get(1).y()).isCloseTo(2.776e-2, within(1e-5));
        // normal, 97.5 %: 1.960 (tables); next to the reference the scatter of this one is nothing
        assertThat(two.get(0).high() - two.get(0).y()).isCloseTo(1.960 * 2e-2, within(1e-5));
        assertThat(one.get(1).x()).isLessThan(50);
        assertThat(two.get(0).x()).isGreaterThan(50).isLessThan(51);
        assertThat(chart.layers()).extracting(Layer::name).containsExactly("", "one", "", "two");
    }

    @Test
    void aMeanOfWhichNothingWasRepeatedIsAnOpenTriangleWithoutBar() {
        Chart chart = CompareChart.of(
                Comparison.of(List.of(
                        line(level(50, 0.001, 1e-4, 2e-4)),
                        line(level(20, 0.002, 1e-4, 2e-4), level(50, 0.003, null, 2e-4)),
                        line(level(50, 0.004, null, null)))),
                List.of("one", "two", "three"),
                "title",
                "says",
                Wording.of(Locale.ENGLISH));
        assertThat(chart.layers())
                .extracting(Layer::name)
                .containsExactly(
                        "",
                        "one",
                        "",
                        "two",
                        "two: not repeated, no uncertainty of repeatability",
                        "",
                        "three: not repeated, no uncertainty of repeatability");
        Layer.Points once = (Layer.Points) chart.layers().get(4);
        assertThat(once.symbol()).isEqualTo(Symbol.TRIANGLE);
        assertThat(once.places()).singleElement().satisfies(place -> {
            assertThat(place.hasBar()).isFalse();
            assertThat(place.y()).isCloseTo(0.3, within(1e-12));
        });
        assertThat(((Layer.Line) chart.layers().get(2)).places())
                .as("its line goes through both")
                .hasSize(2);
    }
}
