package slowproof.trial.recording;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Rows of a recording that take a given time.
 *
 * @param from first row
 * @param to row behind the last one
 * @param leastSpanMm distance in mm that the positions lie apart at least
 */
record Window(int from, int to, double leastSpanMm) {
    /** Rows that are looked at to see whether the position moves. */
    private static final int LOOKS = 5;

    /** Windows of fewer rows tell nothing of noise. */
    private static final int FEWEST_ROWS = 3;

    /** Cuts a recording in windows of at least a time in s, none across a place where it is cut; those first in which the positions seem to lie closest. */
    static List<Window> stillestFirst(Recording recording, Column position, double lengthS) {
        List<Window> windows = new ArrayList<>();
        for (Segment segment : recording.segments()) {
            Ascending clock = new Ascending(recording.timeS(), segment.to());
            int from = segment.from();
            int next = clock.firstAfter(from, lengthS);
            while (next < segment.to()) {
                if (next - from >= FEWEST_ROWS) {
                    windows.add(new Window(from, next, leastSpan(position, from, next)));
                }
                from = next;
                next = clock.firstAfter(from, lengthS);
            }
        }
        windows.sort(Comparator.comparingDouble(Window::leastSpanMm));
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

    int rows() {
        return to - from;
    }
}
