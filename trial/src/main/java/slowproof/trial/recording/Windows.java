package slowproof.trial.recording;

import java.util.Arrays;

/** A recording cut in windows of equal time, none across a place where it is cut, with how far positions lie apart in each at least. */
final class Windows {
    /** Rows of a window that are looked at to see whether it moves. */
    private static final int LOOKS = 5;

    /** Windows of fewer rows tell nothing of noise. */
    private static final int FEWEST_ROWS = 3;

    private int[] from = new int[64];
    private int[] to = new int[64];
    private double[] leastSpan = new double[64];
    private int count;

    private Windows() {}

    /** Cuts a recording in windows of at least a time in s. */
    static Windows of(Recording recording, Column position, double lengthS) {
        Windows windows = new Windows();
        for (Segment segment : recording.segments()) {
            Ascending clock = new Ascending(recording.timeS(), segment.to());
            int from = segment.from();
            int next = clock.firstAfter(from, lengthS);
            while (next < segment.to()) {
                if (next - from >= FEWEST_ROWS) {
                    windows.add(from, next, leastSpan(position, from, next));
                }
                from = next;
                next = clock.firstAfter(from, lengthS);
            }
        }
        return windows;
    }

    private static double leastSpan(Column position, int from, int to) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int look = 0; look < LOOKS; look++) {
            double here = position.get(from + (int) ((long) look * (to - 1 - from) / (LOOKS - 1)));
            low = Math.min(low, here);
            high = Math.max(high, here);
        }
        return high - low;
    }

    private void add(int first, int behind, double span) {
        if (count == from.length) {
            from = Arrays.copyOf(from, 2 * count);
            to = Arrays.copyOf(to, 2 * count);
            leastSpan = Arrays.copyOf(leastSpan, 2 * count);
        }
        from[count] = first;
        to[count] = behind;
        leastSpan[count++] = span;
    }

    /** Returns the numbers of the windows, those first in which the positions seem to lie closest. */
    int[] stillestFirst() {
        long[] keys = new long[count];
        for (int k = 0; k < count; k++) {
            // bits of numbers above zero are in the order of the numbers
            keys[k] = (long) Float.floatToIntBits((float) leastSpan[k]) << 32 | k;
        }
        Arrays.sort(keys);
        int[] order = new int[count];
        for (int k = 0; k < count; k++) {
            order[k] = (int) keys[k];
        }
        return order;
    }

    int from(int window) {
        return from[window];
    }

    /** Returns the row behind the last one of a window. */
    int to(int window) {
        return to[window];
    }

    int rows(int window) {
        return to[window] - from[window];
    }

    /** Returns a distance in mm that the positions of a window lie apart at least. */
    double leastSpan(int window) {
        return leastSpan[window];
    }
}
