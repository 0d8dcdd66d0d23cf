package slowproof.metrology.uncertainty;

import java.util.Arrays;
import slowproof.metrology.Interval;
import slowproof.metrology.sampling.Moments;

/** The values of one block of trials. */
final class PropagatedBlock {

    private final Moments moments;
    private final double[] sorted;

    /** Takes over the values and sorts them. */
    PropagatedBlock(double[] values) {
        moments = Moments.of(values);
        Arrays.sort(values);
        sorted = values;
    }

    Moments moments() {
        return moments;
    }

    int size() {
        return sorted.length;
    }

    Interval interval(IntervalKind kind, double probability) {
        return SortedDraws.of(kind, sorted, probability);
    }

    void copyTo(double[] all, int from) {
        System.arraycopy(sorted, 0, all, from, sorted.length);
    }
}
