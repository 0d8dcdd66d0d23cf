package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.parcel.ParcelWriter;
import slowproof.archive.sheet.Recordings;
import slowproof.files.cache.CacheFolder;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.TrialFiles;
import slowproof.files.in.TrialReader;
import slowproof.files.log.ReadingProgress;
import slowproof.trial.RecordedPass;
import slowproof.wording.Wording;

/** What stands in the fields becomes a trial file that the command line reads to the same passes. */
class UploadTrialTest {
    private static final Wording ENGLISH = Wording.of(Locale.ENGLISH).withPages();

    @TempDir
    Path folder;

    private UploadStore.Log log(int number, String name, String content) throws IOException {
        Path path = Files.writeString(folder.resolve(number + ".log"), content, StandardCharsets.UTF_8);
        return new UploadStore.Log(number, name, content.length(), "ab".repeat(32), path);
    }

    private static LoadedTrial read(String trial, List<UploadStore.Log> logs) {
        return TrialReader.read(
                trial,
                "trial.yaml",
                new TrialFiles(
                        name -> logs.stream()
                                .filter(log -> log.name().equals(name))
                                .findFirst()
                                .orElseThrow()
                                .path(),
                        CacheFolder.NONE,
                        true,
                        ReadingProgress.NONE,
                        null));
    }

    @Test
    void aMappingWithOtherUnitsIsWrittenAndReadBack() throws IOException {
        UploadStore.Log log = log(1, "Lauf \"7\": Filz\\neu.csv", Recorded.german());
        UploadForm form = new UploadForm(
                List.of(log),
                Map.of(
                        "f1_c1", "time",
                        "f1_c1_unit", "ms",
                        "f1_c2", "count",
                        "f1_c3", "reference",
                        "f1_decimal", "comma",
                        "count_mm", "0,05",
                        "f1_material", "felt: \"grey\", 3 mm # not a comment",
                        "f1_speed", "3 m/min",
                        "dwell", "0,8"),
                true);
        assertThat(form.problems(ENGLISH)).isEmpty();
        // two of the four passes run at another speed
        String trial = UploadTrial.of(form, "unnamed", List.of("question_log_speed"));
        LoadedTrial loaded = read(trial, form.logs());
        assertThat(loaded.trial().recorded()).hasSize(4);
        RecordedPass first = loaded.trial().recorded().get(0);
        assertThat(first.material()).isEqualTo("felt: \"grey\", 3 mm # not a comment");
        // 3 m/min are 50 mm/s
        assertThat(first.programmedSpeedMmPerS()).isEqualTo(50);
        assertThat(first.referenceMm()).isCloseTo(600, within(0.01));
        // 0.2 percent of 600 mm are 1.2 mm
        assertThat(first.indicationMm()).isCloseTo(601.2, within(0.06));
        assertThat(loaded.recordings().get(0).cut().dwellS()).isEqualTo(0.8);
    }

    @Test
    void twoLogsBecomeOneRecordingOnTwoClocks() throws IOException {
        List<UploadStore.Log> logs =
                List.of(log(1, "axis.csv", Recorded.axis()), log(2, "sensor.csv", Recorded.sensor()));
        UploadForm form = new UploadForm(logs, Map.of("f1_part", "of2", "count_mm", "0.05"), false);
        assertThat(form.recordings()).extracting(UploadStore.Log::number).containsExactly(2);
        LoadedTrial loaded = read(UploadTrial.of(form, "unnamed", List.of()), logs);
        assertThat(loaded.trial().recorded()).hasSize(4);
        assertThat(loaded.recordings().get(0).reason()).isNotEqualTo("one clock");
    }

    @Test
    void aLogOfTheSensorAloneTakesTypedReferences() throws IOException {
        UploadStore.Log log = log(1, "sensor.csv", Recorded.sensor());
        UploadForm german = new UploadForm(
                List.of(log),
                Map.of("f1_part", "alone", "f1_references", "600,2 599,9; 600\n60,01 cm", "count_mm", "0,05"),
                true);
        assertThat(german.problems(ENGLISH)).isEmpty();
        assertThat(german.referencesMm(log)).containsExactly(600.2, 599.9, 600.0, 600.1);
        LoadedTrial loaded = read(UploadTrial.of(german, "unnamed", List.of()), german.logs());
        assertThat(loaded.trial().recorded())
                .extracting(pass -> Math.abs(pass.referenceMm()))
                .containsExactly(600.2, 599.9, 600.0, 600.1);
        UploadForm english = new UploadForm(
                List.of(log),
                Map.of("f1_part", "alone", "f1_references", "600.2, 599.9, 0", "count_mm", "0.05"),
                false);
        assertThat(english.problems(ENGLISH)).extracting(Problem::field).containsExactly("f1_references");
    }

    @Test
    void aSheetWithRecordingsReadsBackFromTheFilesTakenAlong() throws IOException {
        UploadStore.Log log = log(1, "run.csv", Recorded.plain());
        UploadForm form = new UploadForm(
                List.of(log), Map.of("count_mm", "0.05", "bits", "24", "evaluation", "x2", "reversed", ""), false);
        String kept = UploadTrial.of(form, "unnamed", List.of("question_log_sign"));
        String sheet =
                "trial: \"A title\"\nsensor: {name: \"S\", distance_per_count_mm: 0.05}\nlimit: {relative_pct: 0.15}\n";
        String merged = UploadTrial.merged(sheet, new Recordings(kept, Map.of("run.csv", log.sha256())));
        String path = ParcelWriter.path(log.sha256(), "run.csv");
        assertThat(merged)
                .contains("file: \"" + path + "\"")
                .containsOnlyOnce("distance_per_count_mm")
                .containsOnlyOnce("trial: ")
                .doesNotContain("confirm");
        LoadedTrial loaded = TrialReader.read(
                merged,
                "trial.yaml",
                new TrialFiles(
                        name -> name.equals(path) ? log.path() : folder,
                        CacheFolder.NONE,
                        true,
                        ReadingProgress.NONE,
                        null));
        assertThat(loaded.trial().title()).isEqualTo("A title");
        assertThat(loaded.trial().sensor().counterBits()).isEqualTo(24);
        assertThat(loaded.trial().recorded())
                .hasSize(4)
                .allMatch(pass -> pass.recording().equals("run"));
    }

    @Test
    void whatIsWrongWithTheFieldsIsToldBesideThem() throws IOException {
        List<UploadStore.Log> logs = List.of(log(1, "a.csv", "x"), log(2, "b.csv", "y"));
        UploadForm form = new UploadForm(
                logs,
                Map.of(
                        "f1_c1", "time",
                        "f1_c2", "time",
                        "f1_part", "of2",
                        "f2_part", "of1",
                        "count_mm", "0.O5",
                        "f1_header_rows", "-1",
                        "still", "0"),
                false);
        assertThat(form.problems(ENGLISH))
                .extracting(Problem::field)
                .containsExactlyInAnyOrder("f1_header_rows", "count_mm", "still", "f1_c2", "f1_part", "f2_part");
    }
}
