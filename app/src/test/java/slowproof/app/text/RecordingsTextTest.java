package slowproof.app.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.files.in.TrialReader;
import slowproof.wording.Wording;

class RecordingsTextTest {
    @TempDir
    Path folder;

    /** Forward and back over 600 mm at 100 mm/s; rows missing for 0.3 s on the way out, for 2 s on the way back. */
    private static String log() {
        StringBuilder out = new StringBuilder("time_s,count,reference_mm,remark\n");
        for (int i = 0; i <= 2900; i++) {
            double t = i / 100.0;
            double position =
                    t < 2 ? 0 : t < 8 ? 100 * (t - 2) : t < 10 ? 600 : t < 16 ? 600 - 100 * (t - 10) : t < 18 ? 0 : 50;
            if (t >= 18 && t < 20) {
                position = 25 * (t - 18);
            }
            boolean missing = (t > 4 && t < 4.3) || (t > 12 && t < 14);
            if (!missing) {
                out.append(t).append(',').append(Math.round(position / 0.05)).append(',');
                out.append(position).append(",x\n");
            }
        }
        return out.toString();
    }

    private String explained(Locale locale) throws IOException {
        Files.writeString(folder.resolve("run.csv"), log());
        Path trial = Files.writeString(folder.resolve("trial.yaml"), """
                sensor: {distance_per_count_mm: 0.05}
                recordings: [{material: felt, file: run.csv}]
                """);
        return RecordingsText.render(
                TrialReader.read(trial), Map.of("run", "recording-run.svg"), Wording.of(locale), false, 2000);
    }

    /** A reference log with a remark of its own: a column that is left alone. */
    @Test
    void remarksOnBothLogsAreListed() throws IOException {
        StringBuilder sensor = new StringBuilder("time_s,count\n");
        StringBuilder axis = new StringBuilder("time_s,reference_mm,load\n");
        for (String row : log().split("\n")) {
            String[] cells = row.split(",");
            if (!cells[0].equals("time_s")) {
                sensor.append(cells[0]).append(',').append(cells[1]).append('\n');
                axis.append(cells[0]).append(',').append(cells[2]).append(",1\n");
            }
        }
        Files.writeString(folder.resolve("sensor.csv"), sensor);
        Files.writeString(folder.resolve("axis.csv"), axis);
        Path trial = Files.writeString(folder.resolve("trial.yaml"), """
                sensor: {distance_per_count_mm: 0.05}
                recordings: [{material: felt, sensor_file: sensor.csv, reference_file: axis.csv}]
                """);
        assertThat(RecordingsText.render(TrialReader.read(trial), Map.of(), Wording.of(Locale.ENGLISH), false, 2000))
                .contains("* axis.csv: Columns that nothing here reads: load.");
    }

    @Test
    void everyStepIsSaidWithItsReason() throws IOException {
        assertThat(explained(Locale.ENGLISH))
                .contains("run.csv: felt")
                .contains("Read as time: time_s [s], count: count, reference: reference_mm [mm]; separator \",\"")
                .contains("on one clock, so nothing had to be brought together")
                .contains("4 standstills of at least 0.5 s were found, and 2 passes between two of them")
                .contains("derived from steps and scatter of the reference at rest")
                .contains("No rows from 4 s to 4.3 s. That is too short to hide a standstill")
                .contains("No rows from 12 s to 14 s. A standstill could hide there, so the recording was cut")
                .contains("Rows are missing: run/1 (2 s)")
                .contains("Picture: recording-run.svg.")
                .doesNotContain("recording.");
        assertThat(explained(Locale.GERMAN))
                .contains("4 Stillstände von mindestens 0,5 s wurden gefunden")
                .contains("Es fehlen Zeilen: run/1")
                .doesNotContain("recording.");
    }
}
