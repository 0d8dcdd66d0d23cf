package slowproof.trial.recording;

import java.nio.DoubleBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Room for few rows in the heap, so that columns of tests have to go elsewhere. */
final class SmallHeap implements ColumnSpace {
    final int heapRows;
    int opened;

    SmallHeap(int heapRows) {
        this.heapRows = heapRows;
    }

    @Override
    public int heapRows() {
        return heapRows;
    }

    @Override
    public Room open() {
        opened++;
        List<double[]> blocks = new ArrayList<>();
        return new Room() {
            @Override
            public void append(double[] values, int count) {
                blocks.add(Arrays.copyOf(values, count));
            }

            @Override
            public List<DoubleBuffer> finish() {
                double[] all = blocks.stream().flatMapToDouble(Arrays::stream).toArray();
                List<DoubleBuffer> parts = new ArrayList<>();
                for (int from = 0; from < all.length; from += Column.PART) {
                    int length = Math.min(Column.PART, all.length - from);
                    parts.add(DoubleBuffer.wrap(Arrays.copyOfRange(all, from, from + length)));
                }
                return parts;
            }
        };
    }
}
