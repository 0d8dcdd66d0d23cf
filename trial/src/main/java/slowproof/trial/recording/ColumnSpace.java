package slowproof.trial.recording;

import java.nio.DoubleBuffer;
import java.util.List;

/** Where the numbers of columns are kept: short ones in the heap, long ones wherever there is room. */
public interface ColumnSpace {
    /** Keeps every column in the heap. */
    ColumnSpace HEAP = new ColumnSpace() {
        @Override
        public int heapRows() {
            return Integer.MAX_VALUE;
        }

        @Override
        public Room open() {
            throw new IllegalStateException("every column has its place in the heap");
        }
    };

    /** Returns the number of rows up to which a column stays in the heap. */
    int heapRows();

    /** Returns room outside the heap for one longer column. */
    Room open();

    /** Room for one column that is filled from the first row to the last. One thread. */
    interface Room {
        /** Adds the first {@code count} of some values, which may be overwritten afterwards. */
        void append(double[] values, int count);

        /**
         * Returns everything that was added, for reading only, in parts of {@link Column#PART} rows of which only the last may
         * be shorter; nothing can be added any more.
         */
        List<DoubleBuffer> finish();
    }
}
