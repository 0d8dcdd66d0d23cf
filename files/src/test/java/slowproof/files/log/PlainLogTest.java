package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.ColumnSpace;

class PlainLogTest {
    private static final long SEED = Long.getLong("slowproof.seed", 8);

    @TempDir
    Path folder;

    private static Layout layout(Path file) throws IOException {
        LogProblems problems = new LogProblems("log.csv");
        Layout layout = LayoutFinder.find(Files.readString(file), Dialect.RECOGNISED, problems);
        return Objects.requireNonNull(layout);
    }

    private static List<Target> targets() {
        LogUnit seconds = Objects.requireNonNull(LogUnit.of("s"));
        LogUnit mm = Objects.requireNonNull(LogUnit.of("mm"));
        return List.of(
                new Target(ColumnRole.TIME, 0, "time_s", seconds, 1, 1, false, null),
                new Target(ColumnRole.READING, 2, "reading_mm", mm, 1, 1, false, null),
                new Target(ColumnRole.REFERENCE, 3, "reference_mm", mm, 1, 1, false, null));
    }

    /** Random numbers in the ways that loggers write them. */
    private static String number(SplittableRandom random) {
        double value = (random.nextDouble() - 0.5) * Math.pow(10, random.nextInt(-3, 9));
        return switch (random.nextInt(6)) {
            case 0 -> String.valueOf(Math.round(value));
            case 1 -> String.format(Locale.ROOT, "%.6f", value);
            case 2 -> String.format(Locale.ROOT, "%.3e", value);
            case 3 -> String.valueOf(value);
            case 4 -> String.format(Locale.ROOT, "%.18f", value);
            default -> String.format(Locale.ROOT, "%.2f", value);
        };
    }

    @Test
    void blocksOfAnySizeGiveWhatTheThoroughWayGives() throws IOException {
        SplittableRandom random = new SplittableRandom(SEED);
        for (int trial = 0; trial < 60; trial++) {
            String end = random.nextBoolean() ? "\n" : "\r\n";
            StringBuilder text = new StringBuilder(random.nextBoolean() ? "\ufeff" : "");
            int mark = text.length() == 0 ? 0 : 3;
            text.append("time_s;note;reading_mm;reference_mm").append(end);
            int rows = random.nextInt(3, 80);
            double[][] truth = new double[3][rows];
            for (int i = 0; i < rows; i++) {
                String time = number(random);
                String reading = number(random);
                String position = number(random);
                truth[0][i] = Double.parseDouble(time);
                truth[1][i] = Double.parseDouble(reading);
                truth[2][i] = Double.parseDouble(position);
                text.append(time)
                        .append(";night shift;")
                        .append(reading)
                        .append(';')
                        .append(position);
                text.append(end);
            }
            Path file = Files.writeString(folder.resolve("log.csv"), text);
            int block = random.nextInt(60, 4000);
            PlainLog.Content content = Objects.requireNonNull(
                    new PlainLog(file, layout(file), targets(), mark, block, ColumnSpace.HEAP, bytes -> {}).read());
            for (int k = 0; k < 3; k++) {
                Column column = content.columns().get(k);
                assertThat(column.toArray())
                        .as("seed %d, trial %d, block %d", SEED, trial, block)
                        .containsExactly(truth[k]);
            }
            assertThat(content.sha256())
                    .isEqualTo(HexFormat.of()
                            .formatHex(RawLog.sha256().digest(text.toString().getBytes(StandardCharsets.UTF_8))));
        }
    }

    @Test
    void lastLineWithoutItsEndIsTakenOnlyWhereItsLastNumberIsWhole() throws IOException {
        String good = "time_s;note;reading_mm;reference_mm\n0;a;1;2.25\n1;a;1;2.50\n";
        Layout layout = layout(Files.writeString(folder.resolve("log.csv"), good));
        for (int block : new int[] {8, 50, 1000}) {
            for (String last : List.of("2;a;1;3.00", "2;a;1;3.0", "2;a;1;3.", "2;a;1;3", "2;a;1;-")) {
                Path file = Files.writeString(folder.resolve("log.csv"), good + last);
                PlainLog.Content content = Objects.requireNonNull(
                        new PlainLog(file, layout, targets(), 0, block, ColumnSpace.HEAP, bytes -> {}).read(),
                        last + " in blocks of " + block);
                boolean whole = last.endsWith("3.00");
                assertThat(content.columns().get(2).size()).as(last).isEqualTo(whole ? 3 : 2);
                assertThat(content.cutShort()).as(last).isEqualTo(!whole);
                assertThat(content.sha256()).isEqualTo(RawLog.sha256Of(file));
            }
        }
        Path file = Files.writeString(folder.resolve("log.csv"), good + "2;a;1");
        assertThat(new PlainLog(file, layout, targets(), 0, 1000, ColumnSpace.HEAP, bytes -> {}).read())
                .as("a row without all its cells is for the thorough way")
                .isNull();
    }

    @Test
    void anythingOutOfTheOrdinaryIsLeftToTheThoroughWay() throws IOException {
        String good = "time_s;note;reading_mm;reference_mm\n0;a;1;2\n1;a;1;2\n";
        for (String odd : List.of(
                "2;a;1\n",
                "2;a;1;2;3\n",
                "2;a;x;2\n",
                "2;a;;2\n",
                "2;\"a\";1;2\n",
                "# a remark\n2;a;1;2\n",
                "\n2;a;1;2\n",
                "2;a;1;1e999\n",
                "2;a;NaN;2\n",
                "2;a;1,5;2\n")) {
            Layout layout = layout(Files.writeString(folder.resolve("log.csv"), good));
            Path file = Files.writeString(folder.resolve("log.csv"), good + odd + "3;a;1;2\n");
            assertThat(new PlainLog(file, layout, targets(), 0, 1000, ColumnSpace.HEAP, bytes -> {}).read())
                    .as(odd)
                    .isNull();
        }
        Path file = Files.writeString(folder.resolve("log.csv"), good);
        assertThat(new PlainLog(file, layout(file), targets(), 0, 1000, ColumnSpace.HEAP, bytes -> {}).read())
                .isNotNull();
    }

    @Test
    void aCountWithDecimalsIsLeftToTheThoroughWay() throws IOException {
        List<Target> counts = List.of(new Target(ColumnRole.COUNT, 1, "count", LogUnit.NONE, 1, 1, false, null));
        StringBuilder rows = new StringBuilder("time_s;count;reference_mm\n");
        for (int i = 0; i < 200; i++) {
            rows.append("1;").append(1000 + i).append(".0;2\n");
        }
        Path file = Files.writeString(folder.resolve("log.csv"), rows);
        Layout layout = layout(file);
        assertThat(new PlainLog(file, layout, counts, 0, 1000, ColumnSpace.HEAP, bytes -> {}).read())
                .isNotNull();
        for (String odd : List.of("1;1100.5;2\n", "1;1.005;2\n")) {
            Files.writeString(file, rows + odd + "1;1200.0;2\n");
            assertThat(new PlainLog(file, layout, counts, 0, 1000, ColumnSpace.HEAP, bytes -> {}).read())
                    .as(odd)
                    .isNull();
        }
    }
}
