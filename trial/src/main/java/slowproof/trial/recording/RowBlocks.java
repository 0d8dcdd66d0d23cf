package slowproof.trial.recording;

/**
 * What every {@link #ROWS} rows of a column come to, found in one go over the rows. Most questions about a long column are
 * answered by its blocks alone, and the rest needs the rows of few blocks only.
 *
 * <p>The step to a row is its value less that of the row before, which may lie in the block before. Values that are not
 * finite count neither as extremes nor in steps; {@link #finite} tells whether a block has any.
 */
final class RowBlocks {
    /** Rows in a block, a power of two. */
    static final int ROWS = 128;

    /** Differences of decimals leave dust of the last binary digits, far below any scale. */
    private static final double DUST = 1e-9;

    private final Column column;
    private final boolean[] finite;
    private final double[] low;
    private final double[] high;
    private final double[] fall;
    private final double[] rise;
    private final double[] leastStep;
    private final double[] greatestStep;
    private final double[] smallestMove;

    private RowBlocks(Column column) {
        this.column = column;
        int blocks = (column.size() + ROWS - 1) / ROWS;
        finite = new boolean[blocks];
        low = new double[blocks];
        high = new double[blocks];
        fall = new double[blocks];
        rise = new double[blocks];
        leastStep = new double[blocks];
        greatestStep = new double[blocks];
        smallestMove = new double[blocks];
    }

    /** Finds the blocks of a column. */
    static RowBlocks of(Column column) {
        RowBlocks blocks = new RowBlocks(column);
        // parts of rows begin with a block, so no two threads write to the same one
        SideBySide.over(column.size(), (from, to) -> {
            double before = from > 0 ? column.get(from - 1) : Double.NaN;
            for (int start = from; start < to; start += ROWS) {
                before = blocks.fill(start, Math.min(start + ROWS, to), before);
            }
        });
        return blocks;
    }

    /** Fills in one block and returns its last value. */
    private double fill(int from, int to, double valueBefore) {
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        double falls = 0;
        double rises = 0;
        double least = Double.POSITIVE_INFINITY;
        double greatest = Double.NEGATIVE_INFINITY;
        double smallest = Double.POSITIVE_INFINITY;
        boolean all = true;
        double before = valueBefore;
        for (int i = from; i < to; i++) {
            double here = column.get(i);
            if (!(Math.abs(here) <= Double.MAX_VALUE)) {
                all = false;
                before = Double.NaN;
                continue;
            }
            lowest = here < lowest ? here : lowest;
            highest = here > highest ? here : highest;
            falls = highest - here > falls ? highest - here : falls;
            rises = here - lowest > rises ? here - lowest : rises;
            // comparisons with a value that is none are false
            double step = here - before;
            least = step < least ? step : least;
            greatest = step > greatest ? step : greatest;
            double move = Math.abs(step);
            if (move < smallest && move > DUST * (1 + Math.abs(here))) {
                smallest = move;
            }
            before = here;
        }
        int block = from / ROWS;
        finite[block] = all;
        low[block] = lowest;
        high[block] = highest;
        fall[block] = falls;
        rise[block] = rises;
        leastStep[block] = least;
        greatestStep[block] = greatest;
        smallestMove[block] = smallest;
        return before;
    }

    /** Returns the blocks of a column whose values are these times a factor other than zero. */
    RowBlocks scaled(Column times, double factor) {
        RowBlocks scaled = new RowBlocks(times);
        boolean turned = factor < 0;
        for (int k = 0; k < low.length; k++) {
            scaled.finite[k] = finite[k];
            scaled.low[k] = factor * (turned ? high[k] : low[k]);
            scaled.high[k] = factor * (turned ? low[k] : high[k]);
            scaled.fall[k] = Math.abs(factor) * (turned ? rise[k] : fall[k]);
            scaled.rise[k] = Math.abs(factor) * (turned ? fall[k] : rise[k]);
            scaled.leastStep[k] = factor * (turned ? greatestStep[k] : leastStep[k]);
            scaled.greatestStep[k] = factor * (turned ? leastStep[k] : greatestStep[k]);
            scaled.smallestMove[k] = Math.abs(factor) * smallestMove[k];
        }
        return scaled;
    }

    /** Returns the number of blocks. */
    int count() {
        return low.length;
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
        return finite[block];
    }

    /** Returns true when all values of a block are the same one. */
    boolean constant(int block) {
        return finite[block] && low[block] == high[block];
    }

    /** Returns the least finite value of a block; infinite for none. */
    double low(int block) {
        return low[block];
    }

    /** Returns the greatest finite value of a block; minus infinite for none. */
    double high(int block) {
        return high[block];
    }

    /** Returns how far the values of a block come down from an earlier value of it at most, not negative. */
    double fall(int block) {
        return fall[block];
    }

    /** Returns how far the values of a block come up from an earlier value of it at most, not negative. */
    double rise(int block) {
        return rise[block];
    }

    /** Returns the least step to a row of a block, with its sign; infinite for none. */
    double leastStep(int block) {
        return leastStep[block];
    }

    /** Returns the greatest step to a row of a block, with its sign; minus infinite for none. */
    double greatestStep(int block) {
        return greatestStep[block];
    }

    /** Returns the greatest step to a row of a block, whatever its sign; not above zero for none. */
    double largestMove(int block) {
        return Math.max(-leastStep[block], greatestStep[block]);
    }

    /** Returns the smallest step of the whole column, whatever its sign, zero when no value ever changes. */
    double smallestMove() {
        double smallest = Double.POSITIVE_INFINITY;
        for (double move : smallestMove) {
            smallest = Math.min(smallest, move);
        }
        return smallest == Double.POSITIVE_INFINITY ? 0 : smallest;
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
                lowest = Math.min(lowest, low[block]);
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
                highest = Math.max(highest, high[block]);
                i = to(block);
            } else {
                double here = column.get(i++);
                highest = here > highest ? here : highest;
            }
        }
        return highest;
    }
}
