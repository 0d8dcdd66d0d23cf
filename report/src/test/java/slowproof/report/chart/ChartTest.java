package slowproof.report.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;

/** A chart that cannot be drawn honestly cannot be made. */
class ChartTest {
    @Test
    void aLogarithmicAxisStartsAboveZero() {
        assertThatThrownBy(() -> Axis.decades("speed in mm/s", 0, 10))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("above 0");
    }

    @Test
    void endsOfAnAxisAreFiniteAndInOrder() {
        assertThatThrownBy(() -> Axis.linear("x", 1, 1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Axis.linear("x", 0, Double.NaN)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void aBandNeedsBothEndsAtEveryPlace() {
        assertThatThrownBy(() -> new Layer.Band("band", Tone.ACCENT, List.of(Place.of(1, 2))))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("both ends");
    }

    @Test
    void endsOfABarAreInOrder() {
        assertThatThrownBy(() -> new Place(1, 2, 3, 1)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void aBarNeedsARowAndALength() {
        assertThatThrownBy(() -> new Layer.Bar(-1, 1, "a")).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Layer.Bar(0, Double.NaN, "a")).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void aChartHasATitleAndSomethingToShow() {
        Axis axis = Axis.linear("x", 0, 1);
        assertThatThrownBy(() -> new Chart("t", "", axis, axis, '.', List.of()))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Chart(
                        " ", "", axis, axis, '.', List.of(Layer.Guide.at("g", Tone.INK, Stroke.SOLID, true, 0.5))))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void ticksOfDecadesAreOneTwoAndFive() {
        assertThat(Ticks.decades(Axis.decades("v", 4, 220))).containsExactly(5.0, 10.0, 20.0, 50.0, 100.0, 200.0);
        assertThat(Ticks.decades(Axis.decades("v", 22, 55))).containsExactly(25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0);
        assertThat(Ticks.decades(Axis.decades("v", 75, 165))).containsExactly(80.0, 100.0, 120.0, 140.0, 160.0);
        assertThat(Ticks.decades(Axis.decades("v", 0.31, 0.44)))
                .containsExactly(0.32, 0.34, 0.36, 0.38, 0.4, 0.42, 0.44);
        assertThat(Ticks.decades(Axis.decades("v", 0.9, 20000))).containsExactly(1.0, 10.0, 100.0, 1000.0, 10000.0);
    }

    @Test
    void numbersAtAxesHaveTheReadersDecimalSignAndATrueMinus() {
        assertThat(Ticks.written(-0.25, ',')).isEqualTo("\u22120,25");
        assertThat(Ticks.written(1000, '.')).isEqualTo("1000");
    }
}
