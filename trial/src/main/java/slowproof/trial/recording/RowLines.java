package slowproof.trial.recording;

import java.util.Arrays;

/**
 * In which line of the source a row stands. Kept as runs of rows in neighbouring lines, so that a file without
 * comments or blank lines costs nothing.
 */
public final class RowLines {
    private final int[] rows;
    private final long[] lines;

    private RowLines(int[] rows, long[] lines) {
        this.rows = rows;
        this.lines = lines;
    }

    /** Returns the mapping of a source whose first row stands in {@code line} and every next one a line below. */
    public static RowLines from(long line) {
        return new RowLines(new int[] {0}, new long[] {line});
    }

    /** Returns true when every row stands a line below the one before. */
    public boolean unbroken() {
        return rows.length == 1;
    }

    /** Returns the line of a row, counted from 1. */
    public long line(int row) {
        int run = Arrays.binarySearch(rows, row);
        if (run < 0) {
            run = Math.max(-run - 2, 0);
        }
        return lines[run] + row - rows[run];
    }

    /** Collects the lines of the rows in order. */
    public static final class Builder {
        private int[] rows = new int[4];
        private long[] lines = new long[4];
        private int runs;
        private int nextRow;
        private long nextLine = -1;

        /** Notes the line of the next row. */
        public void add(long line) {
            if (line != nextLine) {
                if (runs == rows.length) {
                    rows = Arrays.copyOf(rows, 2 * runs);
                    lines = Arrays.copyOf(lines, 2 * runs);
                }
                rows[runs] = nextRow;
                lines[runs++] = line;
            }
            nextRow++;
            nextLine = line + 1;
        }

        /** Returns the mapping. */
        public RowLines build() {
            return runs == 0 ? RowLines.from(1) : new RowLines(Arrays.copyOf(rows, runs), Arrays.copyOf(lines, runs));
        }
    }
}
