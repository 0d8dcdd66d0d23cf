package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class RowBlocksTest {
    private static final long SEED = 57;

    private static double[] values(SplittableRandom random, int size) {
        double[] values = new double[size];
        for (int i = 0; i < size; i++) {
            double jump = random.nextInt(20) == 0 ? 100 * random.nextDouble() - 50 : 0;
            values[i] = (i == 0 ? 0 : values[i - 1]) + jump + Math.rint(3 * random.nextDouble() - 1) / 10;
        }
        return values;
    }

    @Test
    void everyBlockTellsWhatItsRowsTell() {
        SplittableRandom random = new SplittableRandom(SEED);
        for (int trial = 0; trial < 60; trial++) {
            double[] values = values(random, random.nextInt(1, 700));
            double factor = trial % 3 == 0 ? 1 : random.nextInt(2) == 0 ? -0.05 : 0.05;
            Column column = trial % 3 == 0
                    ? Column.copyOf(values)
                    : Column.copyOf(values).times(factor);
            RowBlocks blocks = column.blocks();
            double smallest = Double.POSITIVE_INFINITY;
            for (int block = 0; block < blocks.count(); block++) {
                double[] rows = column.toArray(blocks.from(block), blocks.to(block));
                assertThat(blocks.low(block))
                        .isEqualTo(Arrays.stream(rows).min().orElseThrow());
                assertThat(blocks.high(block))
                        .isEqualTo(Arrays.stream(rows).max().orElseThrow());
                assertThat(blocks.finite(block)).isTrue();
                double fall = 0;
                double rise = 0;
                double least = Double.POSITIVE_INFINITY;
                double greatest = Double.NEGATIVE_INFINITY;
                for (int i = 0; i < rows.length; i++) {
                    for (int j = 0; j < i; j++) {
                        fall = Math.max(fall, rows[j] - rows[i]);
                        rise = Math.max(rise, rows[i] - rows[j]);
                    }
                    if (blocks.from(block) + i > 0) {
                        double step = rows[i] - column.at(blocks.from(block) + i - 1);
                        least = Math.min(least, step);
                        greatest = Math.max(greatest, step);
                        smallest = Math.abs(step) > 1e-9 * (1 + Math.abs(rows[i]))
                                ? Math.min(smallest, Math.abs(step))
                                : smallest;
                    }
                }
                assertThat(blocks.fall(block)).isCloseTo(fall, within(1e-9));
                assertThat(blocks.rise(block)).isCloseTo(rise, within(1e-9));
                if (block > 0 || rows.length > 1) {
                    assertThat(blocks.leastStep(block)).isCloseTo(least, within(1e-9));
                    assertThat(blocks.greatestStep(block)).isCloseTo(greatest, within(1e-9));
                }
            }
            double expected = smallest == Double.POSITIVE_INFINITY ? 0 : smallest;
            assertThat(column.smallestStep()).isCloseTo(expected, within(1e-9));
            int from = random.nextInt(values.length);
            int to = random.nextInt(from, values.length);
            double[] part = column.toArray(from, to + 1);
            assertThat(blocks.low(from, to)).isEqualTo(Arrays.stream(part).min().orElseThrow());
            assertThat(blocks.high(from, to))
                    .isEqualTo(Arrays.stream(part).max().orElseThrow());
        }
    }

    @Test
    void aValueThatIsNoneIsToldAndCountsNowhere() {
        double[] values = new double[300];
        Arrays.setAll(values, i -> i);
        values[200] = Double.NaN;
        values[290] = Double.POSITIVE_INFINITY;
        RowBlocks blocks = Column.copyOf(values).blocks();
        assertThat(blocks.finite(0)).isTrue();
        assertThat(blocks.finite(1)).isFalse();
        assertThat(blocks.finite(2)).isFalse();
        assertThat(blocks.low(1)).isEqualTo(128);
        assertThat(blocks.high(2)).isEqualTo(299);
        assertThat(blocks.greatestStep(1)).isEqualTo(1);
        assertThat(blocks.constant(1)).isFalse();
    }

    @Test
    void blocksFoundWhileAColumnGrowsAreThoseOfTheWholeColumn() {
        SplittableRandom random = new SplittableRandom(SEED);
        for (int trial = 0; trial < 60; trial++) {
            double[] values = values(random, random.nextInt(1, 1500));
            for (int hole = random.nextInt(4); hole > 0; hole--) {
                values[random.nextInt(values.length)] = random.nextBoolean() ? Double.NaN : Double.NEGATIVE_INFINITY;
            }
            Column.Builder builder = new Column.Builder(random.nextInt(2000), new SmallHeap(random.nextInt(16, 2000)));
            BlockFigures figures = new BlockFigures(random.nextInt(2000));
            boolean singly = trial % 5 == 0;
            for (int from = 0; from < values.length; ) {
                int count = Math.min(random.nextInt(400), values.length - from);
                double[] block = Arrays.copyOfRange(values, from, from + count + 1);
                builder.add(block, count);
                figures.add(block, count);
                from += count;
                if (singly && from < values.length) {
                    figures.add(new double[] {values[from]}, 1);
                    builder.add(values[from++]);
                }
            }
            Column grown = builder.build();
            assertThat(grown.toArray()).containsExactly(values);
            RowBlocks blocks = grown.blocks();
            RowBlocks whole = Column.copyOf(values).blocks();
            for (int block = 0; block < whole.count(); block++) {
                assertThat(new Object[] {
                            blocks.finite(block),
                            blocks.low(block),
                            blocks.high(block),
                            blocks.fall(block),
                            blocks.rise(block),
                            blocks.leastStep(block),
                            blocks.greatestStep(block)
                        })
                        .as("block %d of trial %d", block, trial)
                        .containsExactly(
                                whole.finite(block),
                                whole.low(block),
                                whole.high(block),
                                whole.fall(block),
                                whole.rise(block),
                                whole.leastStep(block),
                                whole.greatestStep(block));
            }
            assertThat(blocks.smallestMove()).isEqualTo(whole.smallestMove());
            RowBlocks found = RowBlocks.of(grown, figures.finish());
            for (int block = 0; block < whole.count(); block++) {
                assertThat(found.low(block)).isEqualTo(whole.low(block));
                assertThat(found.rise(block)).isEqualTo(whole.rise(block));
                assertThat(found.leastStep(block)).isEqualTo(whole.leastStep(block));
                assertThat(found.finite(block)).isEqualTo(whole.finite(block));
            }
        }
    }

    @Test
    void aLongColumnIsTakenInPartsAndComesToTheSame() {
        double[] values = new double[1_200_000];
        Arrays.setAll(values, i -> Math.sin(i / 1000.0) + (i % 7) / 100.0);
        RowBlocks blocks = Column.copyOf(values).blocks();
        for (int block : new int[] {0, 4095, 4096, 4097, 8191, 8192, blocks.count() - 1}) {
            double[] rows = Arrays.copyOfRange(values, blocks.from(block), blocks.to(block));
            assertThat(blocks.low(block)).isEqualTo(Arrays.stream(rows).min().orElseThrow());
            double before = block == 0 ? Double.NaN : values[blocks.from(block) - 1];
            assertThat(blocks.leastStep(block)).isLessThanOrEqualTo(block == 0 ? rows[1] - rows[0] : rows[0] - before);
        }
    }

    @Test
    void aRowBeyondAllNumbersAtTheEndOfAPartGivesNoStep() {
        double[] values = new double[700_000];
        Arrays.setAll(values, i -> i);
        values[(1 << 19) - 1] = Double.NEGATIVE_INFINITY;
        RowBlocks blocks = Column.copyOf(values).blocks();
        assertThat(blocks.finite((1 << 19) / RowBlocks.ROWS - 1)).isFalse();
        assertThat(blocks.greatestStep((1 << 19) / RowBlocks.ROWS)).isEqualTo(1);
    }
}
