package slowproof.trial.recording;

import java.util.Arrays;
import java.util.Objects;

/** Numbers of one quantity, one per row; never changes once made. NaN marks a row without a value. */
public final class Column {
    private final double[] values;
    private final int size;

    private Column(double[] values, int size) {
        this.values = values;
        this.size = size;
    }

    /** Returns a column with a copy of the values. */
    public static Column copyOf(double... values) {
        return new Column(values.clone(), values.length);
    }

    /** Returns a column of the first {@code size} values without copying them; nobody may write to them any more. */
    static Column owning(double[] values, int size) {
        return new Column(values, size);
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
        return values[Objects.checkIndex(row, size)];
    }

    /** Returns a copy of the rows {@code from} (included) to {@code to} (excluded). */
    public double[] toArray(int from, int to) {
        Objects.checkFromToIndex(from, to, size);
        return Arrays.copyOfRange(values, from, to);
    }

    /** Returns a copy of all values. */
    public double[] toArray() {
        return toArray(0, size);
    }

    /** Returns the values themselves for reading only, at least {@link #size} long; kept inside the package. */
    double[] raw() {
        return values;
    }

    /** Grows a column row by row, or in blocks. One thread; of no use after {@link #build}. */
    public static final class Builder {
        private double[] values;
        private int size;

        /** Creates a builder with room for some rows; it grows as needed. */
        public Builder(int capacity) {
            values = new double[Math.max(capacity, 16)];
        }

        /** Adds one row. */
        public void add(double value) {
            if (size == values.length) {
                grow(size + 1);
            }
            values[size++] = value;
        }

        /** Adds the first {@code count} of some values. */
        public void add(double[] block, int count) {
            if (size + count > values.length) {
                grow(size + count);
            }
            System.arraycopy(block, 0, values, size, count);
            size += count;
        }

        private void grow(int needed) {
            long wanted = Math.max(needed, values.length + (long) (values.length >> 1));
            values = Arrays.copyOf(values, (int) Math.min(wanted, Integer.MAX_VALUE - 8));
        }

        /** Returns the number of rows so far. */
        public int size() {
            return size;
        }

        /** Hands the values over without copying them; the builder is spent. */
        public Column build() {
            Column column = new Column(values, size);
            values = new double[0];
            size = 0;
            return column;
        }
    }
}
