package slowproof.report.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.trial.RecordedPass;
import slowproof.trial.findings.Flag;
import slowproof.trial.recording.Break;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.PeakLine;
import slowproof.trial.recording.SpeedTrace;
import slowproof.wording.Units;
import slowproof.wording.Wording;

class RecordingChartTest {
    private static final PeakLine LINE =
            new PeakLine(Column.copyOf(0, 5, 10, 10, 15, 20), Column.copyOf(0, 100, 0, Double.NaN, -100, 0));
    private static final SpeedTrace TRACE = new SpeedTrace(
            0, 5, 0.05, LINE, new PeakLine(Column.copyOf(), Column.copyOf()), Column.copyOf(0, 0.5, Double.NaN, 1));

    private static RecordedPass pass(double from, double to, Flag... flags) {
        return new RecordedPass(
                "run", "felt", "", null, 100, null, from, to, 600, 600.5, null, null, 0, false, List.of(flags));
    }

    private static Chart chart(Wording wording) {
        return RecordingChart.of(
                "run",
                TRACE,
                List.of(pass(2, 8), pass(12, 18, Flag.OVERSHOOT, Flag.GAP_IN_PASS)),
                List.of(new Break(Break.Cause.GAP, 3, 4, 10, 12, true)),
                wording);
    }

    private static <T extends Layer> List<T> layers(Chart chart, Class<T> kind) {
        return chart.layers().stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    @Test
    void passesAreShadedAndNamedOnce() {
        List<Layer.Region> shaded = layers(chart(Wording.of(Locale.ENGLISH)), Layer.Region.class);
        assertThat(shaded).extracting(Layer.Region::low).containsExactly(2.0, 12.0);
        assertThat(shaded).extracting(Layer.Region::high).containsExactly(8.0, 18.0);
        assertThat(shaded).extracting(Layer.Region::name).containsExactly("pass", "");
    }

    @Test
    void eachKindOfDoubtHasARowAndAShapeOfItsOwnAboveTheSpeeds() {
        Chart chart = chart(Wording.of(Locale.ENGLISH));
        List<Layer.Points> doubts = layers(chart, Layer.Points.class).stream()
                .filter(points -> !points.name().equals("no valid signal"))
                .toList();
        assertThat(doubts)
                .extracting(Layer.Points::name)
                .containsExactly("overshot its end position", "gap in the log");
        assertThat(doubts).extracting(Layer.Points::symbol).doesNotHaveDuplicates();
        for (Layer.Points one : doubts) {
            assertThat(one.places().get(0).x()).isEqualTo(15);
            assertThat(one.places().get(0).y())
                    .isGreaterThan(100)
                    .isLessThan(chart.y().high());
        }
        assertThat(doubts.get(0).places().get(0).y())
                .isNotEqualTo(doubts.get(1).places().get(0).y());
    }

    @Test
    void dropoutsAreMarkedWhereTheyAreAndMissingRowsHatched() {
        Chart chart = chart(Wording.of(Locale.ENGLISH));
        Layer.Points lost = layers(chart, Layer.Points.class).stream()
                .filter(points -> points.name().equals("no valid signal"))
                .findFirst()
                .orElseThrow();
        assertThat(lost.places()).extracting(place -> place.x()).containsExactly(7.5, 17.5);
        Layer.Guide gap = layers(chart, Layer.Guide.class).get(0);
        assertThat(gap.low()).isEqualTo(10);
        assertThat(gap.high()).isEqualTo(12);
    }

    @Test
    void speedsStandInTheReadersUnitAndTheLineIsInterruptedAtTheGap() {
        Wording wording = Wording.of(Locale.GERMAN, new Units(Units.Length.MM, Units.Speed.M_PER_MIN));
        Chart chart = chart(wording);
        // 100 mm/s are 6 m/min
        List<Layer.Line> lines = layers(chart, Layer.Line.class);
        assertThat(lines).hasSize(1);
        assertThat(lines.get(0).places().get(1).y()).isEqualTo(6);
        assertThat(lines.get(0).places().get(3).y()).isNaN();
        assertThat(chart.y().label()).contains("m/min").contains("0,05 s");
        assertThat(chart.description())
                .contains("2 Durchgänge")
                .contains("6 m/min")
                .contains("1 Durchgang ist zweifelhaft");
    }
}
