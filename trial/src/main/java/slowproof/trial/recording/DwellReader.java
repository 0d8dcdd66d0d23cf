package slowproof.trial.recording;

import org.jspecify.annotations.Nullable;

/**
 * Reads sensor and reference at a standstill: means over its settled part, each row counting for the time until
 * the next, so that loggers which write only on change and irregular rows are read right.
 */
final class DwellReader {
    /** Share of a dwell left out at its end, at most 50 ms: the sensor's clock may run a little ahead. */
    private static final double END_SHARE = 0.05;

    private static final double END_S = 0.05;

    private final Column time;
    private final Column reference;
    private final @Nullable Column indication;
    private final double settleS;

    /**
     * Creates a reader.
     *
     * @param indication indication in mm, or null when there is none
     */
    DwellReader(Column time, Column reference, @Nullable Column indication, double settleS) {
        this.time = time;
        this.reference = reference;
        this.indication = indication;
        this.settleS = settleS;
    }

    /** Returns the dwell of rows {@code first} to {@code last}, both included. */
    Dwell read(int first, int last, boolean longEnough) {
        double length = time.get(last) - time.get(first);
        double from = time.get(first) + Math.min(settleS, length / 4);
        double to = time.get(last) - Math.min(END_SHARE * length, END_S);
        int begin = first;
        while (begin < last && time.get(begin) < from) {
            begin++;
        }
        // the row before still holds when rows are sparse
        if (begin > first && time.get(begin) > to) {
            begin--;
        }
        int end = begin;
        while (end + 1 <= last && time.get(end + 1) <= to) {
            end++;
        }
        Column shown = indication;
        return new Dwell(
                first,
                last,
                time.get(first),
                time.get(last),
                mean(reference, begin, end, to),
                shown == null ? Double.NaN : mean(shown, begin, end, to),
                shown == null ? Double.NaN : slopePerMin(shown, begin, end),
                shown == null ? Double.NaN : span(shown, begin, end),
                longEnough);
    }

    private double mean(Column values, int begin, int end, double untilS) {
        double sum = 0;
        double weight = 0;
        for (int i = begin; i <= end; i++) {
            double next = i < end ? time.get(i + 1) : Math.max(untilS, time.get(i));
            double held = next - time.get(i);
            sum += held * (values.get(i) - values.get(begin));
            weight += held;
        }
        return weight > 0 ? values.get(begin) + sum / weight : values.get(begin);
    }

    private static double span(Column indication, int begin, int end) {
        double low = indication.get(begin);
        double high = low;
        for (int i = begin + 1; i <= end; i++) {
            low = Math.min(low, indication.get(i));
            high = Math.max(high, indication.get(i));
        }
        return high - low;
    }

    private double slopePerMin(Column indication, int begin, int end) {
        int n = end - begin + 1;
        if (n < 3) {
            return Double.NaN;
        }
        double meanT = 0;
        double meanX = 0;
        for (int i = begin; i <= end; i++) {
            meanT += (time.get(i) - time.get(begin)) / n;
            meanX += (indication.get(i) - indication.get(begin)) / n;
        }
        double tt = 0;
        double tx = 0;
        for (int i = begin; i <= end; i++) {
            double t = time.get(i) - time.get(begin) - meanT;
            tt += t * t;
            tx += t * (indication.get(i) - indication.get(begin) - meanX);
        }
        return 60 * tx / tt;
    }
}
