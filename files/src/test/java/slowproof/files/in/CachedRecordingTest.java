package slowproof.files.in;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.files.cache.CacheFolder;
import slowproof.files.log.ReadingProgress;
import slowproof.trial.recording.SpeedTrace;

/** A large recording is kept, found again, and never trusted when anything is wrong with what was kept. */
class CachedRecordingTest {
    @TempDir
    Path folder;

    private Path kept;
    private CacheFolder cache;

    @BeforeEach
    void writeLog() throws IOException {
        kept = folder.resolve("kept");
        cache = CacheFolder.in(kept, 1L << 30, "program");
        write(0.05);
        trial("");
    }

    /** Forward and back over 600 mm at 100 mm/s, 20 kHz, so that the log is large enough to be kept. */
    private void write(double countMm) throws IOException {
        StringBuilder out = new StringBuilder("time_us,count,reference_mm\n");
        for (int i = 0; i <= 360_000; i++) {
            double t = i / 20_000.0;
            double position = t < 2 ? 0 : t < 8 ? 100 * (t - 2) : t < 10 ? 600 : t < 16 ? 600 - 100 * (t - 10) : 0;
            out.append(50 * i).append(".000000,");
            out.append(Math.round(position / countMm))
                    .append(',')
                    .append((float) position)
                    .append('\n');
        }
        Path log = folder.resolve("run.csv");
        Files.writeString(log, out);
        // files changed just now are not remembered
        Files.setLastModifiedTime(log, FileTime.from(Instant.now().minusSeconds(60)));
        assertThat(cache.worthwhile(log)).isTrue();
    }

    private void trial(String more) throws IOException {
        Files.writeString(folder.resolve("trial.yaml"), """
                sensor: {distance_per_count_mm: 0.05}
                recordings: [{material: felt, file: run.csv%s}]
                """.formatted(more));
    }

    private LoadedTrial read() {
        return TrialReader.read(folder.resolve("trial.yaml"), cache, true, ReadingProgress.NONE);
    }

    private List<String> files(String ending) throws IOException {
        try (Stream<Path> all = Files.list(kept)) {
            return all.map(path -> path.getFileName().toString())
                    .filter(name -> name.endsWith(ending))
                    .sorted()
                    .toList();
        }
    }

    private static void assertSame(LoadedTrial one, LoadedTrial other) {
        assertThat(one.trial()).isEqualTo(other.trial());
        assertThat(one.notes()).isEqualTo(other.notes());
        assertThat(one.sources()).isEqualTo(other.sources());
        assertThat(one.recordings())
                .usingRecursiveComparison()
                .ignoringFields("cut.trace")
                .isEqualTo(other.recordings());
        SpeedTrace trace = requireNonNull(one.recordings().get(0).cut().trace());
        SpeedTrace same = requireNonNull(other.recordings().get(0).cut().trace());
        assertThat(trace.stepS()).isEqualTo(same.stepS());
        assertThat(trace.referenceMmPerS().value().toArray())
                .containsExactly(same.referenceMmPerS().value().toArray());
        assertThat(trace.indicatedMmPerS().timeS().toArray())
                .containsExactly(same.indicatedMmPerS().timeS().toArray());
        assertThat(trace.dropout().toArray()).containsExactly(same.dropout().toArray());
    }

    @Test
    void theSecondReadingGivesTheSameWithoutTheRawNumbers() throws IOException {
        LoadedTrial without = TrialReader.read(folder.resolve("trial.yaml"));
        LoadedTrial first = read();
        assertSame(first, without);
        assertThat(files(".part")).isEmpty();
        assertThat(files(".columns")).hasSize(1);
        assertThat(files(".passes")).hasSize(1);
        assertSame(read(), without);
        // another setting needs the columns, not the raw file
        trial(", dwell_s: 1");
        LoadedTrial other = read();
        assertSame(other, TrialReader.read(folder.resolve("trial.yaml")));
        assertThat(other.recordings().get(0).cut().dwellS()).isEqualTo(1);
        assertThat(files(".columns")).hasSize(1);
        assertThat(files(".passes")).hasSize(2);
    }

    @Test
    void aTraceIsMadeWhenItIsFirstWantedAndThenKept() throws IOException {
        Path trial = folder.resolve("trial.yaml");
        LoadedTrial without = TrialReader.read(trial, cache, false, ReadingProgress.NONE);
        assertThat(without.recordings().get(0).cut().trace()).isNull();
        LoadedTrial with = read();
        assertSame(with, TrialReader.read(trial));
        assertThat(without.trial()).isEqualTo(with.trial());
        assertThat(files(".passes")).hasSize(1);
        assertThat(TrialReader.read(trial, cache, false, ReadingProgress.NONE)
                        .recordings()
                        .get(0)
                        .cut()
                        .trace())
                .isNotNull();
    }

    @Test
    void aNoteTellsTheNextStartWhatIsKept() throws IOException {
        read();
        String name = folder.resolve("trial.yaml").toRealPath().toString().replace('/', '%') + ".seen";
        assertThat(files(".seen")).containsExactly(name);
        assertThat(Files.readAllLines(kept.resolve(name))).isEqualTo(files(".passes"));
        // a log changed just now is not remembered, so nothing is sure about the next reading
        write(0.0501);
        Files.setLastModifiedTime(folder.resolve("run.csv"), FileTime.from(Instant.now()));
        Files.delete(kept.resolve(name));
        read();
        assertThat(files(".seen")).isEmpty();
    }

    @Test
    void materialAndSpeedAreTheTrialsAndNeedNoNewReading() throws IOException {
        read();
        trial(", speed_mm_s: 100, setup: B");
        assertSame(read(), TrialReader.read(folder.resolve("trial.yaml")));
        assertThat(files(".passes")).hasSize(1);
    }

    @Test
    void aChangedRawFileIsReadAnew() throws IOException {
        double before = read().trial().recorded().get(0).indicationMm();
        write(0.0501);
        LoadedTrial after = read();
        assertThat(after.trial().recorded().get(0).indicationMm()).isNotEqualTo(before);
        assertSame(after, TrialReader.read(folder.resolve("trial.yaml")));
    }

    @Test
    void whatIsCutOrSpoiledIsNoticedAndMadeAnew() throws IOException {
        LoadedTrial truth = read();
        List<String> names = Stream.of(".hash", ".columns", ".passes")
                .flatMap(ending -> {
                    try {
                        return files(ending).stream();
                    } catch (IOException e) {
                        throw new AssertionError(e);
                    }
                })
                .toList();
        assertThat(names).hasSize(3);
        for (String name : names) {
            byte[] whole = Files.readAllBytes(kept.resolve(name));
            for (int harm = 0; harm < 3; harm++) {
                byte[] spoiled = whole.clone();
                int length = harm == 0 ? whole.length / 2 : whole.length;
                if (harm == 1) {
                    spoiled[whole.length / 3] = (byte) (spoiled[whole.length / 3] + 4);
                }
                Files.write(kept.resolve(name), harm == 2 ? new byte[0] : Arrays.copyOf(spoiled, length));
                if (name.endsWith(".columns")) {
                    // only asked for when the passes are not there
                    Files.delete(kept.resolve(files(".passes").get(0)));
                }
                assertSame(read(), truth);
                assertThat(Files.size(kept.resolve(name))).as(name).isEqualTo(whole.length);
            }
        }
    }

    @Test
    void aFullCacheDropsTheLongestUnusedAndAFolderThatCannotBeMadeIsNoError() throws IOException {
        cache = CacheFolder.in(kept, 1000, "program");
        LoadedTrial truth = read();
        assertThat(files(".columns")).isEmpty();
        Path file = Files.writeString(folder.resolve("taken"), "no folder");
        cache = CacheFolder.in(file, 1L << 30, "program");
        assertSame(read(), truth);
    }

    @Test
    void anotherProgramFindsNoPassesOfThisOne() throws IOException {
        read();
        cache = CacheFolder.in(kept, 1L << 30, "later program");
        read();
        assertThat(files(".passes")).hasSize(2);
        assertThat(files(".columns")).hasSize(1);
    }
}
