package slowproof.trial.recording;

import java.util.function.IntPredicate;

/**
 * A window of a long track as a line of extremes, found without looking at every row: blocks of rows tell their
 * extremes, and only the two blocks that hold those of a piece are looked into. The line is the one that looking at
 * every row would give.
 */
public final class PeakZoom {
    private final TrackRows rows;
    private final double fromS;
    private final double stepS;
    private final PeakLine.Builder line;

    private PeakZoom(TrackRows rows, double fromS, double stepS) {
        this.rows = rows;
        this.fromS = fromS;
        this.stepS = stepS;
        this.line = new PeakLine.Builder(fromS, stepS);
    }

    /**
     * Returns the line within a window, with one row before and one after it, so that it runs out of the picture.
     *
     * @param rows rows; times ascend strictly within each stretch
     * @param interruptions rows that do not follow on the one before, ascending, each above zero
     * @param fromS start of the window in s
     * @param toS end of the window in s, after the start
     * @param pieces pieces of the window, above zero
     */
    public static PeakLine of(TrackRows rows, int[] interruptions, double fromS, double toS, int pieces) {
        PeakZoom zoom = new PeakZoom(rows, fromS, (toS - fromS) / pieces);
        int start = 0;
        for (int k = 0; k <= interruptions.length; k++) {
            int end = k < interruptions.length ? interruptions[k] : rows.size();
            zoom.stretch(start, end, toS);
            start = end;
        }
        return zoom.line.build();
    }

    private void stretch(int start, int end, double toS) {
        if (start >= end || rows.timeS(start) > toS || rows.timeS(end - 1) < fromS) {
            return;
        }
        int row = Math.max(first(start, end, at -> rows.timeS(at) >= fromS) - 1, start);
        int limit = Math.min(first(start, end, at -> rows.timeS(at) > toS) + 1, end);
        line.gap();
        while (row < limit) {
            long piece = piece(rows.timeS(row));
            int next = first(row + 1, limit, at -> piece(rows.timeS(at)) > piece);
            piece(row, next);
            row = next;
        }
    }

    /** The same reckoning as the line's own, so that both agree on rows at an edge. */
    private long piece(double timeS) {
        return PeakLine.piece(timeS, fromS, stepS);
    }

    /** Returns the first row for which something holds that then holds for all later ones; {@code end} when none. */
    private static int first(int start, int end, IntPredicate holds) {
        // most often the answer is near: look farther and farther before halving
        int low = start;
        int high = start;
        for (int step = 1; high < end && !holds.test(high); step *= 2) {
            low = high + 1;
            high = (int) Math.min((long) high + step, end);
        }
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (holds.test(middle)) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        return low;
    }

    private void piece(int from, int to) {
        int first = (from + TrackRows.BLOCK - 1) / TrackRows.BLOCK;
        int last = to / TrackRows.BLOCK;
        if (last - first < 3) {
            add(from, to);
            return;
        }
        int low = -1;
        int high = -1;
        for (int block = first; block < last; block++) {
            double least = rows.blockLow(block);
            if (!Double.isNaN(least)) {
                low = low < 0 || least < rows.blockLow(low) ? block : low;
                high = high < 0 || rows.blockHigh(block) > rows.blockHigh(high) ? block : high;
            }
        }
        add(from, first * TrackRows.BLOCK);
        addBlock(Math.min(low, high));
        if (low != high) {
            addBlock(Math.max(low, high));
        }
        add(last * TrackRows.BLOCK, to);
    }

    private void addBlock(int block) {
        if (block >= 0) {
            add(block * TrackRows.BLOCK, (block + 1) * TrackRows.BLOCK);
        }
    }

    private void add(int from, int to) {
        for (int row = from; row < to; row++) {
            line.add(rows.timeS(row), rows.value(row));
        }
    }
}
