package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.files.cache.CacheFolder;
import slowproof.trial.counts.CounterRegister;
import slowproof.trial.counts.Quadrature;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.ColumnSpace;
import slowproof.trial.recording.PassFinder;
import slowproof.trial.recording.PassSearch;
import slowproof.trial.recording.Recording;
import slowproof.trial.recording.RecordingJoiner;
import slowproof.trial.recording.SensorScale;
import slowproof.trial.recording.SpeedJudge;

/** Columns that do not fit the heap give the same recording, to the last bit. */
class WorkingSpaceTest {
    @TempDir
    Path folder;

    /** Five moves to and fro over 300 mm, some rows without a cell, some stamps twice, a comment in between. */
    private static String log(int rows) {
        StringBuilder out = new StringBuilder("time_s,count,reference_mm,dropout_pct\n");
        for (int i = 0; i < rows; i++) {
            double place = 10.0 * i / rows;
            double share = place % 1;
            double position = 300 * ((int) place % 2 == 0 ? 1 : 0);
            double start = 300 - position;
            double way = Math.min(1, Math.max(0, 2 * share - 0.5));
            double at = start + (position - start) * way;
            String count = i % 9973 == 17 ? "" : String.valueOf(Math.round(at * 20) & 0xfff);
            out.append(
                    String.format(Locale.ROOT, "%.4f,%s,%.3f,%d%n", (i - i % 4001 / 4000) / 1000.0, count, at, i % 7));
            out.append(i == rows / 2 ? "# half of it\n" : "");
        }
        return out.toString().replace("\r", "");
    }

    private static void assertSame(Column one, Column other) {
        assertThat(Arrays.equals(one.toArray(), other.toArray())).isTrue();
    }

    private static void assertSame(Recording one, Recording other) {
        assertSame(one.timeS(), other.timeS());
        assertSame(one.indicationMm(), other.indicationMm());
        assertSame(one.referenceMm(), other.referenceMm());
        assertSame(one.dropout(), other.dropout());
        assertThat(one.breaks()).isEqualTo(other.breaks());
        assertThat(one.notes()).isEqualTo(other.notes());
        PassSearch search = PassFinder.find(one);
        PassSearch same = PassFinder.find(other);
        assertThat(search).isEqualTo(same);
        assertThat(search.passes()).isNotEmpty();
        for (int i = 0; i < search.passes().size(); i++) {
            assertThat(SpeedJudge.judge(one, search, search.passes().get(i), 0.1))
                    .isEqualTo(SpeedJudge.judge(other, same, same.passes().get(i), 0.1));
        }
    }

    @Test
    void aRecordingLargerThanTheHeapIsTheSame() throws IOException {
        Path file = Files.writeString(folder.resolve("log.csv"), log(200_000));
        LogRequest request = LogRequest.of(
                "log.csv", new SensorScale(0.05, new CounterRegister(12, false), null, Quadrature.Evaluation.X4));
        Path scratch = folder.resolve("scratch");
        Recording heap = LogReader.read(file, request, CacheFolder.NONE, ColumnSpace.HEAP, ReadingProgress.NONE)
                .recording();
        for (int heapRows : new int[] {1000, 70_000, 199_000}) {
            ColumnSpace space = WorkingSpace.of("log.csv", () -> scratch, heapRows);
            Recording large = LogReader.read(file, request, CacheFolder.NONE, space, ReadingProgress.NONE)
                    .recording();
            assertSame(heap, large);
            assertSame(heap.reversed().indicationMm(), large.reversed().indicationMm());
            assertSame(
                    RecordingJoiner.join(heap, heap, t -> t + 0.0003).indicationMm(),
                    RecordingJoiner.join(large, large, t -> t + 0.0003).indicationMm());
        }
        try (Stream<Path> left = Files.list(scratch)) {
            assertThat(left).as("working files left behind").isEmpty();
        }
    }

    @Test
    void theQuickWayFillsTheSameRoom() throws IOException {
        String text = log(50_000).replace("# half of it\n", "").replace(",,", ",1,");
        Path file = Files.writeString(folder.resolve("log.csv"), text, StandardCharsets.US_ASCII);
        LogRequest request = LogRequest.of("log.csv", SensorScale.ofCounts(0.05));
        ColumnSpace space = WorkingSpace.of("log.csv", () -> folder, 1000);
        LogProblems problems = new LogProblems("log.csv");
        Layout layout =
                Objects.requireNonNull(LayoutFinder.find(text.substring(0, 2000), Dialect.RECOGNISED, problems));
        List<Target> targets = ColumnFinder.find(layout, request, problems);
        PlainLog.Content small =
                Objects.requireNonNull(new PlainLog(file, layout, targets, 0, 10_000, space, bytes -> {}).read());
        PlainLog.Content heap = Objects.requireNonNull(
                new PlainLog(file, layout, targets, 0, 10_000, ColumnSpace.HEAP, bytes -> {}).read());
        for (int k = 0; k < targets.size(); k++) {
            assertSame(small.columns().get(k), heap.columns().get(k));
        }
    }

    @Test
    void withoutRoomTheLogIsRefusedWithThePlaceThatLacksIt() throws IOException {
        Path taken = Files.writeString(folder.resolve("taken"), "no folder");
        Path file = Files.writeString(folder.resolve("log.csv"), log(5000));
        LogRequest request = LogRequest.of("log.csv", SensorScale.ofCounts(0.05));
        ColumnSpace space = WorkingSpace.of("log.csv", () -> taken, 1000);
        assertThatThrownBy(() -> LogReader.read(file, request, CacheFolder.NONE, space, ReadingProgress.NONE))
                .isInstanceOfSatisfying(BadInputException.class, refused -> {
                    assertThat(refused.problems().get(0).code()).isEqualTo(ProblemCode.LOG_NO_WORKING_SPACE);
                    assertThat(refused.problems().get(0).arguments().get(0)).isEqualTo(taken.toString());
                });
    }
}
