package slowproof.trial.recording;

import java.util.Arrays;

/**
 * Finds what every {@link #ROWS} numbers in a row come to: extremes, ways up and down, steps. The figures of all blocks stand
 * in one array, {@link #EACH} for a block. A column that grows in blocks has its own found while its numbers are at hand.
 */
final class BlockFigures {
    /** Numbers in a block, a power of two. */
    static final int ROWS = 128;

    /** Figures of a block. */
    static final int EACH = 8;

    static final int LOW = 0;
    static final int HIGH = 1;
    static final int FALL = 2;
    static final int RISE = 3;
    static final int LEAST_STEP = 4;
    static final int GREATEST_STEP = 5;
    static final int SMALLEST_MOVE = 6;

    /** One when every number is finite, else zero. */
    static final int FINITE = 7;

    /** Differences of decimals leave dust of the last binary digits, far below any scale. */
    private static final double DUST = 1e-9;

    private double[] figures;
    private final double[] begun = new double[ROWS];
    private int rows;
    private double before = Double.NaN;

    /** Begins with room for the figures of some numbers; it grows as needed. */
    BlockFigures(int rows) {
        figures = roomFor(rows);
    }

    /** Returns room for the figures of so many numbers. */
    static double[] roomFor(int rows) {
        return new double[Math.toIntExact((rows + ROWS - 1L) / ROWS * EACH)];
    }

    /** Takes the first {@code count} of some numbers. */
    void add(double[] values, int count) {
        int at = 0;
        int have = rows % ROWS;
        if (have > 0) {
            at = Math.min(ROWS - have, count);
            System.arraycopy(values, 0, begun, have, at);
            rows += at;
            if (have + at < ROWS) {
                return;
            }
            before = find(begun, 0, ROWS, before, room(), rows / ROWS - 1);
        }
        while (count - at >= ROWS) {
            rows += ROWS;
            before = find(values, at, at + ROWS, before, room(), rows / ROWS - 1);
            at += ROWS;
        }
        System.arraycopy(values, at, begun, 0, count - at);
        rows += count - at;
    }

    private double[] room() {
        long needed = (rows + ROWS - 1L) / ROWS * EACH;
        if (needed > figures.length) {
            figures = Arrays.copyOf(figures, Math.toIntExact(Math.max(needed, figures.length + (figures.length >> 1))));
        }
        return figures;
    }

    /** Returns the figures of all numbers taken; no more can be taken. */
    double[] finish() {
        int have = rows % ROWS;
        if (have > 0) {
            find(begun, 0, have, before, room(), rows / ROWS);
        }
        return figures;
    }

    /**
     * Finds the figures of one block.
     *
     * @param values numbers, the block's from {@code from} (included) to {@code to} (excluded), one at least
     * @param before number before the first, NaN for none
     * @param into where the figures go
     * @param block number of the block, from 0
     * @return last number, NaN when it is not finite
     */
    static double find(double[] values, int from, int to, double before, double[] into, int block) {
        int at = block * EACH;
        double last = values[to - 1];
        if (!findSteps(values, from, to, before, into, at)) {
            // what is not finite becomes none: comparisons with it are false
            double[] known = Arrays.copyOfRange(values, from, to);
            for (int i = 0; i < known.length; i++) {
                known[i] = Double.isFinite(known[i]) ? known[i] : Double.NaN;
            }
            findSteps(known, 0, known.length, before, into, at);
            findWays(known, 0, known.length, into, at);
            into[at + FINITE] = 0;
            return known[known.length - 1];
        }
        into[at + FINITE] = 1;
        if (into[at + LEAST_STEP] >= 0 || into[at + GREATEST_STEP] <= 0) {
            double first = values[from];
            into[at + LOW] = Math.min(first, last);
            into[at + HIGH] = Math.max(first, last);
            into[at + FALL] = Math.max(first - last, 0);
            into[at + RISE] = Math.max(last - first, 0);
        } else {
            findWays(values, from, to, into, at);
        }
        return last;
    }

    /** Finds the figures of steps; returns true when every number is finite. */
    private static boolean findSteps(double[] values, int from, int to, double before, double[] into, int at) {
        double least = Double.POSITIVE_INFINITY;
        double greatest = Double.NEGATIVE_INFINITY;
        double smallest = Double.POSITIVE_INFINITY;
        double none = 0;
        double last = before;
        for (int i = from; i < to; i++) {
            double here = values[i];
            // zero times what is not finite is none
            none += 0 * here;
            double step = here - last;
            least = step < least ? step : least;
            greatest = step > greatest ? step : greatest;
            double move = Math.abs(step);
            if (move < smallest && move > DUST * (1 + Math.abs(here))) {
                smallest = move;
            }
            last = here;
        }
        into[at + LEAST_STEP] = least;
        into[at + GREATEST_STEP] = greatest;
        into[at + SMALLEST_MOVE] = smallest;
        return none == 0;
    }

    private static void findWays(double[] values, int from, int to, double[] into, int at) {
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        double falls = 0;
        double rises = 0;
        for (int i = from; i < to; i++) {
            double here = values[i];
            lowest = here < lowest ? here : lowest;
            highest = here > highest ? here : highest;
            falls = highest - here > falls ? highest - here : falls;
            rises = here - lowest > rises ? here - lowest : rises;
        }
        into[at + LOW] = lowest;
        into[at + HIGH] = highest;
        into[at + FALL] = falls;
        into[at + RISE] = rises;
    }
}
