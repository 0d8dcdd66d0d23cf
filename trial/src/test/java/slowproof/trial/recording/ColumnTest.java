package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.DoubleBuffer;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class ColumnTest {
    private static final long SEED = Long.getLong("slowproof.seed", 3);

    @Test
    void longColumnsOutsideTheHeapHoldTheSameNumbers() {
        SplittableRandom random = new SplittableRandom(SEED);
        for (int trial = 0; trial < 20; trial++) {
            int rows = trial == 0 ? Column.PART + 3 : random.nextInt(1, 300_000);
            SmallHeap space = new SmallHeap(random.nextInt(16, 200_000));
            Column.Builder builder = new Column.Builder(random.nextInt(rows + 1), space);
            double[] truth = random.doubles(rows).toArray();
            int row = 0;
            while (row < rows) {
                if (random.nextBoolean()) {
                    builder.add(truth[row++]);
                } else {
                    int count = Math.min(random.nextInt(100_000), rows - row);
                    builder.add(Arrays.copyOfRange(truth, row, row + count), count);
                    row += count;
                }
                assertThat(builder.size()).isEqualTo(row);
            }
            Column column = builder.build();
            String about = "seed " + SEED + ", trial " + trial;
            assertThat(space.opened).as(about).isEqualTo(rows > space.heapRows ? 1 : 0);
            assertThat(column.size()).as(about).isEqualTo(rows);
            assertThat(Arrays.equals(column.toArray(), truth)).as(about).isTrue();
            assertThat(column.at(rows - 1)).isEqualTo(truth[rows - 1]);
            assertThatThrownBy(() -> column.at(rows)).isInstanceOf(IndexOutOfBoundsException.class);
            int from = random.nextInt(rows);
            int to = random.nextInt(from, rows + 1);
            assertThat(Arrays.equals(column.toArray(from, to), Arrays.copyOfRange(truth, from, to)))
                    .as(about)
                    .isTrue();
            assertThat(column.sibling(rows).build().size()).isZero();
        }
    }

    @Test
    void partsReadyMadeAreAColumn() {
        Column column = Column.of(List.of(DoubleBuffer.wrap(new double[] {1, 2, 3})), 3, ColumnSpace.HEAP);
        assertThat(column.toArray()).containsExactly(1, 2, 3);
        assertThat(column.sibling(4).build().toArray()).isEmpty();
    }
}
