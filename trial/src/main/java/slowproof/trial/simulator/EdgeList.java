package slowproof.trial.simulator;

import java.util.Arrays;

/** Collects edges in growing arrays. Not for use by several threads. */
final class EdgeList {
    private double[] timeS = new double[1024];
    private long[] count = new long[1024];
    private int size;

    void add(double atS, long countAfter) {
        if (size == timeS.length) {
            timeS = Arrays.copyOf(timeS, 2 * size);
            count = Arrays.copyOf(count, 2 * size);
        }
        timeS[size] = atS;
        count[size] = countAfter;
        size++;
    }

    SimEdges withTruth(SimRecording.Truth truth) {
        return new SimEdges(Arrays.copyOf(timeS, size), Arrays.copyOf(count, size), truth);
    }
}
