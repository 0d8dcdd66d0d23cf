package slowproof.trial.recording;

import java.util.ArrayList;
import java.util.List;

/**
 * Stretches of a segment in which a position stays within a width for at least a given time. Probes a quarter of
 * that time apart tell where this may be: in a stretch at rest two neighbouring probes at least lie within the width.
 * There two ends run through the rows, and two queues keep the extremes between them, so the work grows with the rows
 * only and irregular sampling needs no special care.
 */
final class Rests {
    /** A stretch at rest, first and last row included. */
    record Rest(int first, int last) {}

    private final double[] time;
    private final double[] position;
    private final double widthMm;
    private final double lengthS;
    private final List<Rest> rests = new ArrayList<>();
    private int[] highs = new int[0];
    private int[] lows = new int[0];
    private int first = -1;
    private int last = -1;

    private Rests(double[] time, double[] position, double widthMm, double lengthS) {
        this.time = time;
        this.position = position;
        this.widthMm = widthMm;
        this.lengthS = lengthS;
    }

    /** Returns the stretches of rows {@code from} to {@code to} (excluded), in order; touching ones are one. */
    static List<Rest> find(double[] time, double[] position, int from, int to, double widthMm, double lengthS) {
        Rests search = new Rests(time, position, widthMm, lengthS);
        search.probe(from, to);
        if (search.first >= 0) {
            search.rests.add(new Rest(search.first, search.last));
        }
        return search.rests;
    }

    /** Searches wherever neighbouring probes agree, and one probe further on both sides. */
    private void probe(int from, int to) {
        int areaFrom = -1;
        int areaTo = -1;
        int before = from;
        int here = from;
        while (here < to - 1) {
            int next = nextProbe(here, to);
            if (Math.abs(position[next] - position[here]) <= widthMm) {
                if (areaFrom >= 0 && before > areaTo) {
                    search(areaFrom, areaTo + 1);
                    areaFrom = -1;
                }
                areaFrom = areaFrom < 0 ? before : areaFrom;
                areaTo = next < to - 1 ? nextProbe(next, to) : next;
            }
            before = here;
            here = next;
        }
        if (areaFrom >= 0) {
            search(areaFrom, areaTo + 1);
        }
    }

    /** Returns the first row a quarter of the length later, or the one before it when a silence lies between them. */
    private int nextProbe(int row, int to) {
        double step = lengthS / 4;
        double until = time[row] + step;
        int reach = 1;
        int low = row;
        while (row + reach < to - 1 && time[row + reach] < until) {
            low = row + reach;
            reach *= 2;
        }
        int high = Math.min(row + reach, to - 1);
        while (high - low > 1) {
            int middle = (low + high) >>> 1;
            if (time[middle] < until) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high - 1 > row && time[high] - time[high - 1] > step ? high - 1 : high;
    }

    private void search(int from, int to) {
        if (highs.length < to - from) {
            highs = new int[to - from];
            lows = new int[to - from];
        }
        int highHead = 0;
        int highTail = 0;
        int lowHead = 0;
        int lowTail = 0;
        int left = from;
        for (int right = from; right < to; right++) {
            while (highTail > highHead && position[highs[highTail - 1]] <= position[right]) {
                highTail--;
            }
            highs[highTail++] = right;
            while (lowTail > lowHead && position[lows[lowTail - 1]] >= position[right]) {
                lowTail--;
            }
            lows[lowTail++] = right;
            while (position[highs[highHead]] - position[lows[lowHead]] > widthMm) {
                left++;
                if (highs[highHead] < left) {
                    highHead++;
                }
                if (lows[lowHead] < left) {
                    lowHead++;
                }
            }
            if (time[right] - time[left] >= lengthS) {
                if (first >= 0 && left > last) {
                    rests.add(new Rest(first, last));
                    first = -1;
                }
                first = first < 0 ? left : first;
                last = right;
            }
        }
    }
}
