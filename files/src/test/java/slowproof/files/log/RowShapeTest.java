package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class RowShapeTest {
    private static final long SEED = Long.getLong("slowproof.seed", 21);
    private static final String ODD_SIGNS = ",.-0+9 \n\rx\"#e";

    private static List<Target> targets() {
        LogUnit seconds = Objects.requireNonNull(LogUnit.of("s"));
        LogUnit mm = Objects.requireNonNull(LogUnit.of("mm"));
        LogUnit percent = Objects.requireNonNull(LogUnit.of("%"));
        return List.of(
                new Target(ColumnRole.TIME, 0, "time_s", seconds, 1, 1, false, null),
                new Target(ColumnRole.COUNT, 2, "count", LogUnit.NONE, 1, 1, false, null),
                new Target(ColumnRole.REFERENCE, 3, "reference_mm", mm, 1, 1, false, null),
                new Target(ColumnRole.DROPOUT, 4, "dropout_pct", percent, 1, 100, false, null));
    }

    private static PlainBlock block() {
        Layout layout = Objects.requireNonNull(LayoutFinder.find(
                "time_s,note,count,reference_mm,dropout_pct\n0.5,a,1,2.25,0\n1.5,a,1,2.50,0\n",
                Dialect.RECOGNISED,
                new LogProblems("log.csv")));
        return new PlainBlock(layout, targets(), 16);
    }

    /** Rows that are often written like the row before. */
    private static String rows(SplittableRandom random, String end) {
        StringBuilder text = new StringBuilder();
        double time = Math.pow(10, random.nextInt(0, 10)) * random.nextDouble();
        double position = 400 * random.nextDouble() - 200;
        int decimals = random.nextInt(0, 8);
        String note = random.nextBoolean() ? "" : "night shift";
        for (int i = 0; i < 300; i++) {
            time += 0.001;
            position += random.nextInt(40) == 0 ? 50 * random.nextDouble() - 25 : 0.01;
            note = random.nextInt(80) == 0 ? note + "!" : note;
            text.append(String.format(Locale.ROOT, "%.6f,", time))
                    .append(note)
                    .append(',')
                    .append(Math.round(position * 2000))
                    .append(String.format(Locale.ROOT, ",%." + decimals + "f,", position))
                    .append(random.nextInt(50) == 0 ? "12.50" : "0.00")
                    .append(end);
        }
        return text.toString();
    }

    /** Returns the numbers of every row read by itself, where nothing is known of the one before; null when one is odd. */
    private static double[] @Nullable [] oneByOne(byte[] text) {
        List<double[]> columns = new ArrayList<>();
        int from = 0;
        for (int i = 0; i < text.length; i++) {
            if (text[i] == '\n') {
                PlainBlock block = block();
                byte[] line = Arrays.copyOf(Arrays.copyOfRange(text, from, i + 1), i + 1 - from + PlainBlock.SLACK);
                if (!block.parse(line, 0, i + 1 - from)) {
                    return null;
                }
                columns.add(
                        new double[] {block.column(0)[0], block.column(1)[0], block.column(2)[0], block.column(3)[0]});
                from = i + 1;
            }
        }
        return columns.toArray(new double[0][]);
    }

    /** A digit stands where the minus stood, so the rows have the same length as the one learnt from. */
    @Test
    void aMinusThatBecomesADigitIsNotTakenForOne() {
        double[] positions = {-25.21, -5.21, 14.79, 34.79, 54.79, 74.79, 94.79, 114.79, -85.21, -65.21, 10.5};
        StringBuilder text = new StringBuilder();
        for (double position : positions) {
            text.append(String.format(Locale.ROOT, "0.500000,a,%d,%.2f,0.00\n", Math.round(position), position));
        }
        byte[] bytes = text.toString().getBytes(StandardCharsets.US_ASCII);
        PlainBlock block = block();
        assertThat(block.parse(Arrays.copyOf(bytes, bytes.length + PlainBlock.SLACK), 0, bytes.length))
                .isTrue();
        assertThat(Arrays.copyOf(block.column(2), block.rows())).containsExactly(positions);
    }

    @Test
    void stepsThroughZeroComeToWhatEachRowComesToAlone() {
        SplittableRandom random = new SplittableRandom(SEED);
        for (int trial = 0; trial < 2000; trial++) {
            double step = 30 * random.nextDouble() - 15;
            double position = -step * random.nextInt(1, 20);
            int decimals = random.nextInt(0, 4);
            StringBuilder text = new StringBuilder();
            for (int i = 0; i < 40; i++) {
                position += step;
                text.append("1.5,a,")
                        .append(random.nextInt(-99, 999))
                        .append(String.format(Locale.ROOT, ",%." + decimals + "f,0%n", position)
                                .replace("\r", ""));
            }
            byte[] bytes = text.toString().getBytes(StandardCharsets.US_ASCII);
            double[][] alone = Objects.requireNonNull(oneByOne(bytes));
            PlainBlock block = block();
            assertThat(block.parse(Arrays.copyOf(bytes, bytes.length + PlainBlock.SLACK), 0, bytes.length))
                    .isTrue();
            for (int row = 0; row < alone.length; row++) {
                for (int k = 0; k < 4; k++) {
                    assertThat(block.column(k)[row])
                            .as("seed %d, trial %d, row %d, column %d", SEED, trial, row, k)
                            .isEqualTo(alone[row][k]);
                }
            }
        }
    }

    @Test
    void rowsReadTogetherComeToWhatEachComesToAlone() {
        SplittableRandom random = new SplittableRandom(SEED);
        int refused = 0;
        int read = 0;
        for (int trial = 0; trial < 400; trial++) {
            byte[] text = rows(random, random.nextInt(4) == 0 ? "\r\n" : "\n").getBytes(StandardCharsets.US_ASCII);
            for (int spoilt = random.nextInt(3); spoilt > 0; spoilt--) {
                text[random.nextInt(text.length - 2)] = (byte) ODD_SIGNS.charAt(random.nextInt(ODD_SIGNS.length()));
            }
            double[][] alone = oneByOne(text);
            PlainBlock block = block();
            boolean plain = block.parse(Arrays.copyOf(text, text.length + PlainBlock.SLACK), 0, text.length);
            assertThat(plain).as("seed %d, trial %d", SEED, trial).isEqualTo(alone != null);
            if (alone == null) {
                refused++;
                continue;
            }
            read++;
            assertThat(block.rows()).isEqualTo(alone.length);
            for (int row = 0; row < alone.length; row++) {
                for (int k = 0; k < 4; k++) {
                    assertThat(block.column(k)[row])
                            .as("seed %d, trial %d, row %d, column %d", SEED, trial, row, k)
                            .isEqualTo(alone[row][k]);
                }
            }
        }
        assertThat(refused).isGreaterThan(50);
        assertThat(read).isGreaterThan(150);
    }
}
