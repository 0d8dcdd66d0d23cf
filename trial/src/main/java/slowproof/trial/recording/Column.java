package slowproof.trial.recording;

import java.nio.DoubleBuffer;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * Numbers of one quantity, one per row; never changes once made. NaN marks a row without a value. Very long columns lie
 * outside the heap, see {@link ColumnSpace}; nobody who reads one need know.
 */
public final class Column {
    /** Rows in one part of a column outside the heap. */
    public static final int PART = 1 << 22;

    private static final int PART_BITS = 22;
    private static final DoubleBuffer[] NO_PARTS = {};

    private final double @Nullable [] values;
    private final DoubleBuffer[] parts;
    private final int size;
    private final ColumnSpace space;

    /** Every value is this many times what is kept; a product with one changes nothing. */
    private final double factor;

    private final @Nullable Column kept;

    /** Found when they are first asked for. */
    private volatile @Nullable RowBlocks blocks;

    private Column(double @Nullable [] values, DoubleBuffer[] parts, int size, ColumnSpace space) {
        this.values = values;
        this.parts = parts;
        this.size = size;
        this.space = space;
        this.factor = 1;
        this.kept = null;
    }

    private Column(Column kept, double factor) {
        this.values = kept.values;
        this.parts = kept.parts;
        this.size = kept.size;
        this.space = kept.space;
        this.factor = factor * kept.factor;
        this.kept = kept;
    }

    /** Returns a column with a copy of the values. */
    public static Column copyOf(double... values) {
        return owning(values.clone(), values.length);
    }

    /** Returns a column of the first {@code size} values without copying them; nobody may write to them any more. */
    static Column owning(double[] values, int size) {
        return new Column(values, NO_PARTS, size, ColumnSpace.HEAP);
    }

    /**
     * Returns a column of numbers that lie outside the heap already.
     *
     * @param parts the numbers in parts of {@link #PART} rows, the last one as long as it need be; nobody may write to them
     * @param size number of rows
     * @param space where columns made of this one are kept
     */
    public static Column of(List<DoubleBuffer> parts, int size, ColumnSpace space) {
        return new Column(null, parts.toArray(NO_PARTS), size, space);
    }

    /** Returns the number of rows. */
    public int size() {
        return size;
    }

    /**
     * Returns the value of a row.
     *
     * @param row row counted from 0
     * @throws IndexOutOfBoundsException if there is no such row
     */
    public double at(int row) {
        return get(Objects.checkIndex(row, size));
    }

    /** Returns the value of a row that is there; for the long loops of this package, and short so that it becomes part of them. */
    double get(int row) {
        double[] heap = values;
        return factor * (heap != null ? heap[row] : outside(row));
    }

    private double outside(int row) {
        return parts[row >> PART_BITS].get(row & (PART - 1));
    }

    /** Returns a copy of the rows {@code from} (included) to {@code to} (excluded). */
    public double[] toArray(int from, int to) {
        Objects.checkFromToIndex(from, to, size);
        double[] copy = values != null ? Arrays.copyOfRange(values, from, to) : partsOf(from, to);
        if (factor != 1) {
            for (int i = 0; i < copy.length; i++) {
                copy[i] *= factor;
            }
        }
        return copy;
    }

    private double[] partsOf(int from, int to) {
        double[] copy = new double[to - from];
        int row = from;
        while (row < to) {
            int count = Math.min(PART - (row & (PART - 1)), to - row);
            parts[row >> PART_BITS].get(row & (PART - 1), copy, row - from, count);
            row += count;
        }
        return copy;
    }

    /** Returns a copy of all values. */
    public double[] toArray() {
        return toArray(0, size);
    }

    /** Returns a column of every value times a factor other than zero; no number is kept twice. */
    Column times(double factor) {
        return new Column(this, factor);
    }

    /** Returns what the rows come to block by block; found once, since it takes all rows. */
    RowBlocks blocks() {
        RowBlocks found = blocks;
        if (found == null) {
            found = kept == null ? RowBlocks.of(this) : kept.blocks().scaled(this, factor / kept.factor);
            blocks = found;
        }
        return found;
    }

    /** Returns the smallest step between neighbouring rows, zero when no value ever changes. */
    public double smallestStep() {
        return blocks().smallestMove();
    }

    /** Returns the greatest value less the least; minus infinite when none is finite. */
    public double span() {
        return blocks().span(0, size - 1);
    }

    /** Returns a builder for a column that is kept where this one is. */
    Builder sibling(int capacity) {
        return new Builder(capacity, space);
    }

    /** Grows a column row by row, or in blocks. One thread; of no use after {@link #build}. */
    public static final class Builder {
        private static final int CHUNK = 1 << 16;

        private final int capacity;
        private final ColumnSpace space;
        private ColumnSpace.@Nullable Room room;
        private double[] held;
        private int holds;
        private int handedOn;

        /** Found as long as rows come in blocks. */
        private @Nullable BlockFigures figures;

        /** Creates a builder in the heap with room for some rows; it grows as needed. */
        public Builder(int capacity) {
            this(capacity, ColumnSpace.HEAP);
        }

        /**
         * Creates a builder.
         *
         * @param capacity rows to make room for; it grows as needed
         * @param space where a column goes that is too long for the heap
         */
        public Builder(int capacity, ColumnSpace space) {
            this.capacity = capacity;
            this.space = space;
            boolean inHeap = capacity <= space.heapRows();
            room = inHeap ? null : space.open();
            held = new double[inHeap ? Math.max(capacity, 16) : CHUNK];
        }

        /** Adds one row. */
        public void add(double value) {
            figures = null;
            if (holds == held.length) {
                makeRoom(1);
            }
            held[holds++] = value;
        }

        /** Adds the first {@code count} of some values. */
        public void add(double[] block, int count) {
            if (size() == 0) {
                figures = new BlockFigures(Math.max(capacity, count));
            }
            if (figures != null) {
                figures.add(block, count);
            }
            int from = 0;
            while (from < count) {
                if (holds == held.length) {
                    makeRoom(count - from);
                }
                int part = Math.min(count - from, held.length - holds);
                System.arraycopy(block, from, held, holds, part);
                holds += part;
                from += part;
            }
        }

        private void makeRoom(int needed) {
            long wanted = Math.max((long) holds + needed, holds + (long) (holds >> 1));
            if (room == null && (long) holds + needed <= space.heapRows()) {
                long most = Math.min(space.heapRows(), Integer.MAX_VALUE - 8);
                held = Arrays.copyOf(held, (int) Math.min(wanted, most));
                return;
            }
            ColumnSpace.Room open = room;
            if (open == null) {
                open = space.open();
                room = open;
                open.append(held, holds);
                held = new double[CHUNK];
            } else {
                open.append(held, holds);
            }
            // a log of more rows than can be counted must not go on with a wrong number
            handedOn = Math.addExact(handedOn, holds);
            holds = 0;
        }

        /** Returns the number of rows so far. */
        public int size() {
            return handedOn + holds;
        }

        /** Hands the values over without copying them; the builder is spent. */
        public Column build() {
            int size = size();
            ColumnSpace.Room last = room;
            double[] values = held;
            held = new double[0];
            int rest = holds;
            holds = 0;
            Column column;
            if (last == null) {
                column = new Column(values, NO_PARTS, size, space);
            } else {
                last.append(values, rest);
                column = new Column(null, last.finish().toArray(NO_PARTS), size, space);
            }
            if (figures != null) {
                column.blocks = RowBlocks.of(column, figures.finish());
            }
            return column;
        }
    }
}
