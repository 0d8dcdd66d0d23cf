package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import org.junit.jupiter.api.Test;

class RunningSpeedTest {
    /** 100 Hz; 5 mm/s for 1 s, then 50 mm/s; positions in steps of 0.1 mm; some rows left out. */
    private static Recording recording(IntPredicate left) {
        Column.Builder time = new Column.Builder(16);
        Column.Builder position = new Column.Builder(16);
        Column.Builder lost = new Column.Builder(16);
        for (int i = 0; i <= 1000; i++) {
            if (!left.test(i)) {
                time.add(i / 100.0);
                double t = i / 100.0;
                position.add(Math.rint(10 * (t < 1 ? 5 * t : 5 + 50 * (t - 1))) / 10);
                lost.add(i == 500 ? 1 : 0);
            }
        }
        LoggedColumns columns = new LoggedColumns(
                "made", RowLines.from(1), time.build(), null, position.build(), null, null, null, lost.build());
        return RecordingAssembler.assemble(columns, SensorScale.none(), BreakRule.DEFAULT);
    }

    private static List<Double> speeds(Recording recording, double gate) {
        List<Double> speeds = new ArrayList<>();
        RunningSpeed.each(recording, recording.indicationMm(), gate, (row, time, speed) -> speeds.add(speed));
        return speeds;
    }

    @Test
    void aSteadySpeedIsFoundAndTheStepIsCentred() {
        Recording recording = recording(i -> false);
        List<Double> speeds = speeds(recording, 0.2);
        assertThat(speeds).hasSize(recording.size());
        // a step of 0.1 mm over 0.2 s
        assertThat(speeds.get(50)).isCloseTo(5, within(0.5 + 1e-9));
        assertThat(speeds.get(500)).isCloseTo(50, within(1e-9));
        // at the kink half of the time lies before it
        assertThat(speeds.get(100)).isCloseTo(27.5, within(0.5 + 1e-9));
        assertThat(speeds.get(1000)).isCloseTo(50, within(1e-9));
    }

    @Test
    void oneStepMakesAHundredthOfTheTopSpeed() {
        // 0.1 mm of 50 mm/s is a hundredth over 0.2 s
        assertThat(RunningSpeed.usualGateS(recording(i -> false))).isCloseTo(0.2, within(1e-6));
    }

    @Test
    void nothingIsAveragedAcrossMissingRows() {
        Recording recording = recording(i -> i > 300 && i < 400);
        assertThat(recording.breaks()).hasSize(1);
        SpeedTrace trace = SpeedTrace.of(recording, 100);
        PeakLine line = trace.indicatedMmPerS();
        int gaps = 0;
        for (int i = 0; i < line.size(); i++) {
            if (Double.isNaN(line.value().at(i))) {
                gaps++;
                assertThat(line.timeS().at(i)).isLessThanOrEqualTo(3);
                assertThat(line.timeS().at(i + 1)).isGreaterThanOrEqualTo(4);
            }
        }
        assertThat(gaps).isEqualTo(1);
    }

    @Test
    void aDropoutOfOneRowIsSeenInItsPiece() {
        SpeedTrace trace = SpeedTrace.of(recording(i -> false), 100);
        for (int piece = 0; piece < trace.size(); piece++) {
            // a piece is as long as ten rows; the row at 5 s lies on the edge of one
            boolean here = Math.abs(trace.timeS(piece) - 5) < trace.stepS();
            assertThat(trace.dropout().at(piece)).isBetween(0.0, here ? 0.12 : 0.0);
        }
        assertThat(trace.dropout().at(49) + trace.dropout().at(50)).isBetween(0.08, 0.12);
        assertThat(trace.toS()).isCloseTo(10, within(1e-9));
    }

    /** A long recording whose logger writes less often at its end, where a short move lies. */
    @Test
    void aShortMoveAmongSparseRowsIsSeenInAPictureToo() {
        Column.Builder time = new Column.Builder(16);
        Column.Builder position = new Column.Builder(16);
        double here = 0;
        for (int i = 0; i < 600_000; i++) {
            boolean sparse = i >= 400_000;
            here += i >= 500_001 && i < 500_009 ? 4 : 0;
            time.add(sparse ? 400 + (i - 400_000) * 0.008 : i / 1000.0);
            position.add(here);
        }
        LoggedColumns columns = new LoggedColumns(
                "made", RowLines.from(1), time.build(), null, position.build(), null, null, null, null);
        Recording recording = RecordingAssembler.assemble(columns, SensorScale.none(), BreakRule.DEFAULT);
        double[] top = new double[1];
        RunningSpeed.some(
                recording, recording.indicationMm(), 0.04, (row, timeS, speed) -> top[0] = Math.max(top[0], speed));
        // 32 mm within 0.064 s, at 500 mm/s
        assertThat(top[0]).isCloseTo(500, within(1e-6));
    }
}
