package slowproof.trial.recording;

/**
 * Reads sensor and reference at a standstill: means over its settled part, each row counting for the time until
 * the next, so that loggers which write only on change and irregular rows are read right.
 */
final class DwellReader {
    /** Share of a dwell left out at its end, at most 50 ms: the sensor's clock may run a little ahead. */
    private static final double END_SHARE = 0.05;

    private static final double END_S = 0.05;

    private final double[] time;
    private final double[] reference;
    private final double[] indication;
    private final double settleS;

    /**
     * Creates a reader.
     *
     * @param indication indication in mm, empty when there is none
     */
    DwellReader(double[] time, double[] reference, double[] indication, double settleS) {
        this.time = time;
        this.reference = reference;
        this.indication = indication;
        this.settleS = settleS;
    }

    /** Returns the dwell of rows {@code first} to {@code last}, both included. */
    Dwell read(int first, int last, boolean longEnough) {
        double length = time[last] - time[first];
        double from = time[first] + Math.min(settleS, length / 4);
        double to = time[last] - Math.min(END_SHARE * length, END_S);
        int begin = first;
        while (begin < last && time[begin] < from) {
            begin++;
        }
        // the row before still holds when rows are sparse
        if (begin > first && time[begin] > to) {
            begin--;
        }
        int end = begin;
        while (end + 1 <= last && time[end + 1] <= to) {
            end++;
        }
        double shown = indication.length == 0 ? Double.NaN : mean(indication, begin, end, to);
        return new Dwell(
                first,
                last,
                time[first],
                time[last],
                mean(reference, begin, end, to),
                shown,
                indication.length == 0 ? Double.NaN : slopePerMin(begin, end),
                indication.length == 0 ? Double.NaN : span(begin, end),
                longEnough);
    }

    private double mean(double[] values, int begin, int end, double untilS) {
        double sum = 0;
        double weight = 0;
        for (int i = begin; i <= end; i++) {
            double next = i < end ? time[i + 1] : Math.max(untilS, time[i]);
            double held = next - time[i];
            sum += held * (values[i] - values[begin]);
            weight += held;
        }
        return weight > 0 ? values[begin] + sum / weight : values[begin];
    }

    private double span(int begin, int end) {
        double low = indication[begin];
        double high = low;
        for (int i = begin + 1; i <= end; i++) {
            low = Math.min(low, indication[i]);
            high = Math.max(high, indication[i]);
        }
        return high - low;
    }

    private double slopePerMin(int begin, int end) {
        int n = end - begin + 1;
        if (n < 3) {
            return Double.NaN;
        }
        double meanT = 0;
        double meanX = 0;
        for (int i = begin; i <= end; i++) {
            meanT += (time[i] - time[begin]) / n;
            meanX += (indication[i] - indication[begin]) / n;
        }
        double tt = 0;
        double tx = 0;
        for (int i = begin; i <= end; i++) {
            double t = time[i] - time[begin] - meanT;
            tt += t * t;
            tx += t * (indication[i] - indication[begin] - meanX);
        }
        return 60 * tx / tt;
    }
}
