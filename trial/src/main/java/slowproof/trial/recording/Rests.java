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

    private final Column time;
    private final Column position;
    private final double widthMm;
    private final double lengthS;
    private final List<Rest> rests = new ArrayList<>();
    private final Queue highs = new Queue();
    private final Queue lows = new Queue();
    private int first = -1;
    private int last = -1;

    private Rests(Column time, Column position, double widthMm, double lengthS) {
        this.time = time;
        this.position = position;
        this.widthMm = widthMm;
        this.lengthS = lengthS;
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
        int areaFrom = -1;
        int areaTo = -1;
        int before = from;
        int here = from;
        while (here < to - 1) {
            int next = nextProbe(here, to);
            if (Math.abs(position.get(next) - position.get(here)) <= widthMm) {
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
        double until = time.get(row) + step;
        int reach = 1;
        int low = row;
        while (row + reach < to - 1 && time.get(row + reach) < until) {
            low = row + reach;
            reach *= 2;
        }
        int high = Math.min(row + reach, to - 1);
        while (high - low > 1) {
            int middle = (low + high) >>> 1;
            if (time.get(middle) < until) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high - 1 > row && time.get(high) - time.get(high - 1) > step ? high - 1 : high;
    }

    private void search(int from, int to) {
        highs.clear();
        lows.clear();
        int left = from;
        for (int right = from; right < to; right++) {
            double here = position.get(right);
            while (!highs.isEmpty() && position.get(highs.last()) <= here) {
                highs.removeLast();
            }
            highs.add(right);
            while (!lows.isEmpty() && position.get(lows.last()) >= here) {
                lows.removeLast();
            }
            lows.add(right);
            while (position.get(highs.first()) - position.get(lows.first()) > widthMm) {
                left++;
                if (highs.first() < left) {
                    highs.removeFirst();
                }
                if (lows.first() < left) {
                    lows.removeFirst();
                }
            }
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

    /** Rows in order, taken from either end; as long as the longest it had to be. */
    private static final class Queue {
        private int[] rows = new int[1 << 10];
        private int head;
        private int tail;

        void clear() {
            head = 0;
            tail = 0;
        }

        boolean isEmpty() {
            return head == tail;
        }

        int first() {
            return rows[head];
        }

        int last() {
            return rows[tail - 1];
        }

        void removeFirst() {
            head++;
        }

        void removeLast() {
            tail--;
        }

        void add(int row) {
            if (tail == rows.length) {
                int length = tail - head;
                int[] target = length > rows.length / 2 ? new int[2 * rows.length] : rows;
                System.arraycopy(rows, head, target, 0, length);
                rows = target;
                head = 0;
                tail = length;
            }
            rows[tail++] = row;
        }
    }
}
