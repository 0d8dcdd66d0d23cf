package slowproof.trial.recording;

import java.util.ArrayList;
import java.util.List;

/**
 * Stretches of a segment in which a position stays within a width for at least a given time. Probes a quarter of
 * that time apart tell where this may be: in a stretch at rest two neighbouring probes at least lie within the width.
 * There two ends run through the rows, and two queues keep the extremes between them, so the work grows with the rows
 * only and irregular sampling needs no special care. While whole blocks of rows fit into the width with all that came before, the
 * queues rest.
 */
final class Rests {
    /** A stretch at rest, first and last row included. */
    record Rest(int first, int last) {}

    private final Column time;
    private final Column position;
    private final double widthMm;
    private final double lengthS;
    private final RowBlocks blocks;
    private final List<Rest> rests = new ArrayList<>();
    private final Peaks highs = new Peaks(1);
    private final Peaks lows = new Peaks(-1);
    private int first = -1;
    private int last = -1;

    private Rests(Column time, Column position, double widthMm, double lengthS) {
        this.time = time;
        this.position = position;
        this.widthMm = widthMm;
        this.lengthS = lengthS;
        this.blocks = position.blocks();
    }

    /** Returns the stretches of rows {@code from} to {@code to} (excluded), in order; touching ones are one. */
    static List<Rest> find(Column time, Column position, int from, int to, double widthMm, double lengthS) {
        Rests search = new Rests(time, position, widthMm, lengthS);
        search.probe(from, to);
        if (search.first >= 0) {
            search.rests.add(new Rest(search.first, search.last));
        }
        return search.rests;
    }

    /** Searches wherever neighbouring probes agree, and one probe further on both sides. */
    private void probe(int from, int to) {
        Ascending clock = new Ascending(time, to);
        int areaFrom = -1;
        int areaTo = -1;
        int before = from;
        int here = from;
        while (here < to - 1) {
            int next = nextProbe(clock, here, to);
            if (Math.abs(position.get(next) - position.get(here)) <= widthMm) {
                if (areaFrom >= 0 && before > areaTo) {
                    search(areaFrom, areaTo + 1);
                    areaFrom = -1;
                }
                areaFrom = areaFrom < 0 ? before : areaFrom;
                areaTo = next < to - 1 ? nextProbe(clock, next, to) : next;
            }
            before = here;
            here = next;
        }
        if (areaFrom >= 0) {
            search(areaFrom, areaTo + 1);
        }
    }

    /** Returns the first row a quarter of the length later, or the one before it when a silence lies between them. */
    private int nextProbe(Ascending clock, int row, int to) {
        double step = lengthS / 4;
        int next = Math.min(clock.firstAfter(row, step), to - 1);
        return next - 1 > row && time.get(next) - time.get(next - 1) > step ? next - 1 : next;
    }

    private void search(int from, int to) {
        highs.clear();
        lows.clear();
        int left = from;
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        boolean queued = true;
        int right = from;
        while (right < to) {
            int block = right / RowBlocks.ROWS;
            int end = Math.min(blocks.to(block), to);
            if (right == blocks.from(block) && end == blocks.to(block)) {
                double lower = Math.min(low, blocks.low(block));
                double higher = Math.max(high, blocks.high(block));
                if (higher - lower <= widthMm) {
                    low = lower;
                    high = higher;
                    queued = false;
                    right = end;
                    take(left, end - 1);
                    continue;
                }
            }
            if (!queued) {
                highs.fill(position, blocks, left, right);
                lows.fill(position, blocks, left, right);
                queued = true;
            }
            for (; right < end; right++) {
                highs.add(position, right);
                lows.add(position, right);
                while (position.get(highs.first()) - position.get(lows.first()) > widthMm) {
                    left++;
                    highs.leave(left);
                    lows.leave(left);
                }
                take(left, right);
            }
            low = position.get(lows.first());
            high = position.get(highs.first());
        }
    }

    /** Takes the rows {@code left} to {@code right}, which lie within the width, when they last long enough. */
    private void take(int left, int right) {
        if (time.get(right) - time.get(left) >= lengthS) {
            if (first >= 0 && left > last) {
                rests.add(new Rest(first, last));
                first = -1;
            }
            first = first < 0 ? left : first;
            last = right;
        }
    }
}
