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
        int end = last;
        while (end > begin && time.get(end) > to) {
            end--;
        }
        double middle = (time.get(begin) + time.get(end)) / 2;
        int half = end;
        while (half > begin && time.get(half - 1) >= middle) {
            half--;
        }
        boolean told = indication != null;
        Column shown = indication == null ? reference : indication;
        Means means = Means.of(time, reference, shown, begin, end, to);
        return new Dwell(
                first,
                last,
                time.get(first),
                time.get(last),
                reference.get(begin) + means.first(),
                told ? shown.get(begin) + means.second() : Double.NaN,
                time.get(end) - time.get(half),
                told ? slopePerMin(shown, half, end) : Double.NaN,
                told ? shown.blocks().span(begin, end) : Double.NaN,
                longEnough);
    }

    /**
     * What some rows come to in one go over them, all less the values of the first one.
     *
     * @param first mean of a column, each row counting for the time until the next
     * @param second the same of another column
     */
    private record Means(double first, double second) {
        static Means of(Column time, Column first, Column second, int begin, int end, double untilS) {
            double start = time.get(begin);
            double firstOrigin = first.get(begin);
            double secondOrigin = second.get(begin);
            double weight = 0;
            double firstSum = 0;
            double secondSum = 0;
            double here = start;
            for (int i = begin; i <= end; i++) {
                double next = i < end ? time.get(i + 1) : Math.max(untilS, here);
                double held = next - here;
                firstSum += held * (first.get(i) - firstOrigin);
                secondSum += held * (second.get(i) - secondOrigin);
                weight += held;
                here = next;
            }
            boolean weighed = weight > 0;
            return new Means(weighed ? firstSum / weight : 0, weighed ? secondSum / weight : 0);
        }
    }

    /** Slope of the indication less that of the reference, which may creep a little at rest; of the indication alone where it is all there is. */
    private double slopePerMin(Column shown, int begin, int end) {
        if (end - begin < 2) {
            return Double.NaN;
        }
        boolean compared = shown != reference;
        double timeOrigin = 0;
        for (int i = begin; i <= end; i++) {
            timeOrigin += (time.get(i) - time.get(begin)) / (end - begin + 1);
        }
        timeOrigin += time.get(begin);
        double origin = shown.get(begin) - (compared ? reference.get(begin) : 0);
        double tt = 0;
        double tx = 0;
        for (int i = begin; i <= end; i++) {
            double t = time.get(i) - timeOrigin;
            tt += t * t;
            tx += t * (shown.get(i) - (compared ? reference.get(i) : 0) - origin);
        }
        return 60 * tx / tt;
    }
}
