package slowproof.trial.recording;

import java.util.ArrayList;
import java.util.List;

/**
 * Stretches of a segment in which a position stays within a width for at least a given time. Two ends run
 * through the rows once, and two queues keep the extremes between them, so the work grows with the rows only and
 * irregular sampling needs no special care.
 */
final class Rests {
    /** A stretch at rest, first and last row included. */
    record Rest(int first, int last) {}

    private Rests() {}

    /** Returns the stretches of rows {@code from} to {@code to} (excluded), in order; touching ones are one. */
    static List<Rest> find(double[] time, double[] position, int from, int to, double widthMm, double lengthS) {
        List<Rest> rests = new ArrayList<>();
        int[] highs = new int[to - from];
        int[] lows = new int[to - from];
        int highHead = 0;
        int highTail = 0;
        int lowHead = 0;
        int lowTail = 0;
        int left = from;
        int first = -1;
        int last = -1;
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
        if (first >= 0) {
            rests.add(new Rest(first, last));
        }
        return rests;
    }
}
