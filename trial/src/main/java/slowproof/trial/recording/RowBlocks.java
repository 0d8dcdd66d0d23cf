package slowproof.trial.recording;

/**
 * What every {@link #ROWS} rows of a column come to, found in one go over the rows, see {@link BlockFigures}. Most questions
 * about a long column are answered by its blocks alone, and the rest needs the rows of few blocks only.
 *
 * <p>The step to a row is its value less that of the row before, which may lie in the block before. Values that are not
 * finite count neither as extremes nor in steps; {@link #finite} tells whether a block has any.
 */
final class RowBlocks {
    /** Rows in a block, a power of two. */
    static final int ROWS = BlockFigures.ROWS;

    /** Rows copied at once where a column does not lie in one array. */
    private static final int AT_ONCE = 32 * ROWS;

    private final Column column;

    /** Figures of the values kept, of which those of the column are {@link #factor} times as much. */
    private final double[] figures;

    private final double factor;
    private final double scale;
    private final boolean turned;
    private final int count;

    private RowBlocks(Column column, double[] figures, double factor) {
        this.column = column;
        this.figures = figures;
        this.factor = factor;
        this.scale = Math.abs(factor);
        this.turned = factor < 0;
        this.count = (column.size() + ROWS - 1) / ROWS;
    }

    /** Returns the blocks of a column whose figures are found already. */
    static RowBlocks of(Column column, double[] figures) {
        return new RowBlocks(column, figures, 1);
    }

    /** Finds the blocks of a column. */
    static RowBlocks of(Column column) {
        int size = column.size();
        double[] figures = BlockFigures.roomFor(size);
        // parts of rows begin with a block, so no two threads write to the same one
        SideBySide.over(size, (from, to) -> {
            double last = from > 0 ? column.get(from - 1) : Double.NaN;
            double before = Double.isFinite(last) ? last : Double.NaN;
            for (int start = from; start < to; start += AT_ONCE) {
                double[] rows = column.toArray(start, Math.min(start + AT_ONCE, to));
                for (int i = 0; i < rows.length; i += ROWS) {
                    int end = Math.min(i + ROWS, rows.length);
                    before = BlockFigures.find(rows, i, end, before, figures, (start + i) / ROWS);
                }
            }
        });
        return new RowBlocks(column, figures, 1);
    }

    /** Returns the blocks of a column whose values are these times a factor other than zero. */
    RowBlocks scaled(Column times, double factor) {
        return new RowBlocks(times, figures, this.factor * factor);
    }

    private double figure(int block, int which) {
        return figures[block * BlockFigures.EACH + which];
    }

    /** Returns the number of blocks. */
    int count() {
        return count;
    }

    /** Returns the first row of a block. */
    int from(int block) {
        return block * ROWS;
    }

    /** Returns the row behind the last one of a block. */
    int to(int block) {
        return Math.min((block + 1) * ROWS, column.size());
    }

    /** Returns true when every value of a block is finite. */
    boolean finite(int block) {
        return figure(block, BlockFigures.FINITE) != 0;
    }

    /** Returns true when all values of a block are the same one. */
    boolean constant(int block) {
        return finite(block) && figure(block, BlockFigures.LOW) == figure(block, BlockFigures.HIGH);
    }

    /** Returns the least finite value of a block; infinite for none. */
    double low(int block) {
        return factor * figure(block, turned ? BlockFigures.HIGH : BlockFigures.LOW);
    }

    /** Returns the greatest finite value of a block; minus infinite for none. */
    double high(int block) {
        return factor * figure(block, turned ? BlockFigures.LOW : BlockFigures.HIGH);
    }

    /** Returns how far the values of a block come down from an earlier value of it at most, not negative. */
    double fall(int block) {
        return scale * figure(block, turned ? BlockFigures.RISE : BlockFigures.FALL);
    }

    /** Returns how far the values of a block come up from an earlier value of it at most, not negative. */
    double rise(int block) {
        return scale * figure(block, turned ? BlockFigures.FALL : BlockFigures.RISE);
    }

    /** Returns the least step to a row of a block, with its sign; infinite for none. */
    double leastStep(int block) {
        return factor * figure(block, turned ? BlockFigures.GREATEST_STEP : BlockFigures.LEAST_STEP);
    }

    /** Returns the greatest step to a row of a block, with its sign; minus infinite for none. */
    double greatestStep(int block) {
        return factor * figure(block, turned ? BlockFigures.LEAST_STEP : BlockFigures.GREATEST_STEP);
    }

    /** Returns the greatest step to a row of a block, whatever its sign; not above zero for none. */
    double largestMove(int block) {
        return Math.max(-leastStep(block), greatestStep(block));
    }

    /** Returns the smallest step of the whole column, whatever its sign, zero when no value ever changes. */
    double smallestMove() {
        double smallest = Double.POSITIVE_INFINITY;
        for (int block = 0; block < count; block++) {
            smallest = Math.min(smallest, figure(block, BlockFigures.SMALLEST_MOVE));
        }
        return smallest == Double.POSITIVE_INFINITY ? 0 : scale * smallest;
    }

    /** Returns the greatest value less the least of the rows {@code from} to {@code to}, both included; minus infinite for none. */
    double span(int from, int to) {
        return high(from, to) - low(from, to);
    }

    /** Returns the least finite value of the rows {@code from} to {@code to}, both included; infinite for none. */
    double low(int from, int to) {
        double lowest = Double.POSITIVE_INFINITY;
        for (int i = from; i <= to; ) {
            int block = i / ROWS;
            if (i == from(block) && to(block) - 1 <= to) {
                lowest = Math.min(lowest, low(block));
                i = to(block);
            } else {
                double here = column.get(i++);
                lowest = here < lowest ? here : lowest;
            }
        }
        return lowest;
    }

    /** Returns the greatest finite value of the rows {@code from} to {@code to}, both included; minus infinite for none. */
    double high(int from, int to) {
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = from; i <= to; ) {
            int block = i / ROWS;
            if (i == from(block) && to(block) - 1 <= to) {
                highest = Math.max(highest, high(block));
                i = to(block);
            } else {
                double here = column.get(i++);
                highest = here > highest ? here : highest;
            }
        }
        return highest;
    }
}
