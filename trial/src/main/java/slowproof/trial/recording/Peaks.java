package slowproof.trial.recording;

import java.util.Arrays;

/**
 * The rows of a moving window that are or may yet become its extreme: each lies beyond all behind it, so the first one is the
 * extreme. As long as the longest it had to be.
 */
final class Peaks {
    private final int sense;
    private int[] rows = new int[1 << 8];
    private int head;
    private int tail;

    /** Begins without rows; {@code sense} is 1 for the greatest value, -1 for the least. */
    Peaks(int sense) {
        this.sense = sense;
    }

    /** Leaves all rows. */
    void clear() {
        head = 0;
        tail = 0;
    }

    /** Returns the row of the extreme. */
    int first() {
        return rows[head];
    }

    /** Takes the next row at the end of the window. */
    void add(Column values, int row) {
        double here = sense * values.get(row);
        while (tail > head && sense * values.get(rows[tail - 1]) <= here) {
            tail--;
        }
        if (tail == rows.length) {
            int length = tail - head;
            int[] target = length > rows.length / 2 ? new int[2 * rows.length] : rows;
            System.arraycopy(rows, head, target, 0, length);
            rows = target;
            head = 0;
            tail = length;
        }
        rows[tail++] = row;
    }

    /** Leaves the rows before one, where the window now begins. */
    void leave(int row) {
        if (rows[head] < row) {
            head++;
        }
    }

    /** Begins anew with the rows {@code from} (included) to {@code to} (excluded), of which there is one at least. */
    void fill(Column values, RowBlocks blocks, int from, int to) {
        int[] found = new int[rows.length];
        int count = 0;
        double beyond = Double.NEGATIVE_INFINITY;
        for (int i = to - 1; i >= from; ) {
            int block = i / RowBlocks.ROWS;
            int start = blocks.from(block);
            double extreme = sense > 0 ? blocks.high(block) : -blocks.low(block);
            if (i == blocks.to(block) - 1 && start >= from && extreme <= beyond) {
                i = start - 1;
                continue;
            }
            double here = sense * values.get(i);
            if (here > beyond) {
                beyond = here;
                found = count == found.length ? Arrays.copyOf(found, 2 * count) : found;
                found[count++] = i;
            }
            i--;
        }
        rows = found;
        head = 0;
        tail = count;
        for (int low = 0, high = count - 1; low < high; low++, high--) {
            int row = found[low];
            found[low] = found[high];
            found[high] = row;
        }
    }
}
