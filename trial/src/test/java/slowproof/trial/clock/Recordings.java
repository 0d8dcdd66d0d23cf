package slowproof.trial.clock;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.LoggedColumns;
import slowproof.trial.recording.Recording;
import slowproof.trial.recording.RecordingAssembler;
import slowproof.trial.recording.RowLines;
import slowproof.trial.recording.SensorScale;
import slowproof.trial.simulator.SimRecording;

/** Makes recordings of simulated ones. */
final class Recordings {
    private Recordings() {}

    private static Recording of(double[] timeS, double @Nullable [] count, double @Nullable [] axisMm, double countMm) {
        return RecordingAssembler.assemble(
                new LoggedColumns(
                        count == null ? "axis.csv" : "sensor.csv",
                        RowLines.from(2),
                        Column.copyOf(timeS),
                        count == null ? null : Column.copyOf(count),
                        null,
                        null,
                        null,
                        axisMm == null ? null : Column.copyOf(axisMm),
                        null),
                SensorScale.ofCounts(countMm));
    }

    private static double[] counts(SimRecording sim) {
        return Arrays.stream(sim.count()).asDoubleStream().toArray();
    }

    static Recording sensor(SimRecording sim, double countMm) {
        return of(sim.sensorTimeS(), counts(sim), null, countMm);
    }

    static Recording backwards(SimRecording sim, double countMm) {
        double[] counts = Arrays.stream(counts(sim)).map(count -> -count).toArray();
        return of(sim.sensorTimeS(), counts, null, countMm);
    }

    static Recording setBack(SimRecording sim, double countMm) {
        double[] time = sim.sensorTimeS();
        for (int i = time.length / 2; i < time.length; i++) {
            time[i] -= 2;
        }
        return of(time, counts(sim), null, countMm);
    }

    static Recording axis(SimRecording sim) {
        return axis(sim, 0);
    }

    static Recording axis(SimRecording sim, double laterS) {
        double[] time = Arrays.stream(sim.axisTimeS()).map(t -> t + laterS).toArray();
        return of(time, null, sim.axisPositionMm(), 1);
    }

    static Recording oneClock(SimRecording sim, double countMm) {
        return of(sim.sensorTimeS(), counts(sim), sim.axisPositionMm(), countMm);
    }
}
