package slowproof.files.trace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.files.log.LogReader;
import slowproof.files.log.LogRequest;
import slowproof.trial.recording.PeakLine;
import slowproof.trial.recording.PeakZoom;
import slowproof.trial.recording.Recording;
import slowproof.trial.recording.RunningSpeed;
import slowproof.trial.recording.SensorScale;
import slowproof.trial.recording.TrackRows;

class TraceFileTest {
    @TempDir
    Path folder;

    /** To and fro with ramps, one row of dropout, rows missing for a while; more rows than the writer's buffer holds. */
    private Recording recording() throws IOException {
        StringBuilder log = new StringBuilder("time_s,reading_mm,reference_mm,dropout_pct\n");
        for (int i = 0; i < 60_000; i++) {
            double t = i / 1000.0;
            double position = 400 - 400 * Math.cos(t / 3);
            if (i < 40_000 || i > 42_000) {
                log.append(t)
                        .append(',')
                        .append(Math.rint(position * 1.001 * 20) / 20)
                        .append(',');
                log.append(position).append(',').append(i == 12_345 ? 100 : 0).append('\n');
            }
        }
        Path file = Files.writeString(folder.resolve("log.csv"), log);
        return LogReader.read(file, LogRequest.of("log.csv", SensorScale.none()))
                .recording();
    }

    @Test
    void whatWasWrittenIsReadBack() throws IOException {
        Recording recording = recording();
        Path path = folder.resolve("kept.trace");
        TraceWriter.write(recording, path);
        TraceFile file = TraceFile.open(path);
        assertThat(file.rows()).isEqualTo(recording.size());
        assertThat(file.gateS()).isEqualTo(RunningSpeed.usualGateS(recording));
        assertThat(file.interruptions()).containsExactly(40_000);
        assertThat(file.timeS(50_000)).isEqualTo(recording.timeS().at(50_000));
        for (TraceFile.Track track : TraceFile.Track.values()) {
            TrackRows rows = Objects.requireNonNull(file.track(track));
            float[] expected = new float[recording.size()];
            if (track == TraceFile.Track.DROPOUT) {
                for (int i = 0; i < expected.length; i++) {
                    expected[i] = (float) recording.dropout().at(i);
                }
            } else {
                RunningSpeed.each(
                        recording,
                        track == TraceFile.Track.REFERENCE ? recording.referenceMm() : recording.indicationMm(),
                        file.gateS(),
                        (row, time, speed) -> expected[row] = (float) speed);
            }
            float[] found = new float[rows.size()];
            for (int i = 0; i < found.length; i++) {
                found[i] = (float) rows.value(i);
            }
            assertThat(Arrays.equals(found, expected)).as(track.name()).isTrue();
            int blocks = (rows.size() + TrackRows.BLOCK - 1) / TrackRows.BLOCK;
            for (int block = 0; block < blocks; block++) {
                float[] own = Arrays.copyOfRange(
                        expected, block * TrackRows.BLOCK, Math.min((block + 1) * TrackRows.BLOCK, rows.size()));
                Arrays.sort(own);
                assertThat(rows.blockLow(block)).isEqualTo(own[0]);
                assertThat(rows.blockHigh(block)).isEqualTo(own[own.length - 1]);
            }
        }
    }

    @Test
    void theDropoutOfOneRowIsFoundInTheWholeRecording() throws IOException {
        Path path = folder.resolve("kept.trace");
        TraceWriter.write(recording(), path);
        TraceFile file = TraceFile.open(path);
        TrackRows dropout = Objects.requireNonNull(file.track(TraceFile.Track.DROPOUT));
        PeakLine line = PeakZoom.of(dropout, file.interruptions(), 0, 60, 100);
        assertThat(line.value().toArray()).containsOnlyOnce(1.0);
    }

    @Test
    void aFileThatIsCutShortIsRefused() throws IOException {
        Path path = folder.resolve("kept.trace");
        TraceWriter.write(recording(), path);
        byte[] all = Files.readAllBytes(path);
        for (int length : new int[] {0, 40, 66, 1000, all.length - 1}) {
            Path cut = Files.write(folder.resolve("cut-" + length), Arrays.copyOf(all, length));
            assertThatThrownBy(() -> TraceFile.open(cut)).isInstanceOf(IOException.class);
        }
        Path other = Files.write(folder.resolve("other"), new byte[100]);
        assertThatThrownBy(() -> TraceFile.open(other)).hasMessageContaining("no kept recording");
    }
}
