package slowproof.trial.recording;

import java.util.Arrays;

/** Order statistics of long columns. */
final class Select {
    /** Beyond this many values every k-th is taken: a median of 100,000 values is sure enough for a threshold. */
    private static final int ENOUGH = 100_000;

    private Select() {}

    /** Returns the median of the first {@code count} values, of a regular sample of them when there are very many. */
    static double median(double[] values, int count) {
        return quantile(values, count, 0.5);
    }

    /** Returns the value below which the share {@code p} of the first {@code count} values lies; NaN for none. */
    static double quantile(double[] values, int count, double p) {
        if (count == 0) {
            return Double.NaN;
        }
        int stride = Math.max(1, count / ENOUGH);
        double[] sample = new double[(count + stride - 1) / stride];
        for (int i = 0; i < sample.length; i++) {
            sample[i] = values[i * stride];
        }
        Arrays.sort(sample);
        double place = p * (sample.length - 1);
        int below = (int) place;
        int above = Math.min(below + 1, sample.length - 1);
        return sample[below] + (place - below) * (sample[above] - sample[below]);
    }
}
