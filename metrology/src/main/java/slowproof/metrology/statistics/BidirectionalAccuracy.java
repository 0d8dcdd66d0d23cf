package slowproof.metrology.statistics;

import java.util.Arrays;
import java.util.List;

/**
 * Accuracy and repeatability of positioning from repeated approaches to several targets from either side (ISO
 * 230-2:2014, definitions from memory). Deviations are actual less target; all results have their unit.
 */
public final class BidirectionalAccuracy {
    private final double[] meanUp;
    private final double[] meanDown;
    private final double[] deviationUp;
    private final double[] deviationDown;

    private BidirectionalAccuracy(double[] meanUp, double[] meanDown, double[] deviationUp, double[] deviationDown) {
        this.meanUp = meanUp;
        this.meanDown = meanDown;
        this.deviationUp = deviationUp;
        this.deviationDown = deviationDown;
    }

    /**
     * Evaluates a table of deviations.
     *
     * @param up for each target, the deviations of at least two approaches in the positive direction; not modified
     * @param down the same for the negative direction, as many targets; not modified
     * @return the evaluation
     * @throws IllegalArgumentException if there is no target, the numbers of targets differ, a target has fewer than two
     *     approaches from a side, or a deviation is not finite
     */
    public static BidirectionalAccuracy of(List<double[]> up, List<double[]> down) {
        if (up.isEmpty() || up.size() != down.size()) {
            throw new IllegalArgumentException(
                    "expected as many targets from either side: " + up.size() + " and " + down.size());
        }
        return new BidirectionalAccuracy(means(up), means(down), deviations(up), deviations(down));
    }

    /**
     * Number of targets.
     *
     * @return at least 1
     */
    public int targets() {
        return meanUp.length;
    }

    /**
     * Reversal value at a target: mean deviation approached in the positive direction less that in the negative one.
     *
     * @param target from 0
     * @return of either sign
     */
    public double reversal(int target) {
        return meanUp[target] - meanDown[target];
    }

    /**
     * Largest reversal value of all targets.
     *
     * @return B, at least 0
     */
    public double largestReversal() {
        double largest = 0;
        for (int i = 0; i < targets(); i++) {
            largest = Math.max(largest, Math.abs(reversal(i)));
        }
        return largest;
    }

    /**
     * Mean reversal value over the targets.
     *
     * @return of either sign
     */
    public double meanReversal() {
        double sum = 0;
        for (int i = 0; i < targets(); i++) {
            sum += reversal(i);
        }
        return sum / targets();
    }

    /**
     * Bidirectional repeatability at a target: the largest of 2 s_up + 2 s_down + |B|, 4 s_up and 4 s_down.
     *
     * @param target from 0
     * @return R_i, at least 0
     */
    public double repeatability(int target) {
        double both = 2 * deviationUp[target] + 2 * deviationDown[target] + Math.abs(reversal(target));
        return Math.max(both, 4 * Math.max(deviationUp[target], deviationDown[target]));
    }

    /**
     * Largest bidirectional repeatability of all targets.
     *
     * @return R, at least 0
     */
    public double largestRepeatability() {
        double largest = 0;
        for (int i = 0; i < targets(); i++) {
            largest = Math.max(largest, repeatability(i));
        }
        return largest;
    }

    /**
     * Largest unidirectional repeatability, 4 s, of the positive direction.
     *
     * @return at least 0
     */
    public double repeatabilityUp() {
        return 4 * max(deviationUp);
    }

    /**
     * Largest unidirectional repeatability, 4 s, of the negative direction.
     *
     * @return at least 0
     */
    public double repeatabilityDown() {
        return 4 * max(deviationDown);
    }

    /**
     * Range of the mean bidirectional deviations.
     *
     * @return M, at least 0
     */
    public double meanDeviationRange() {
        double[] means = new double[targets()];
        for (int i = 0; i < means.length; i++) {
            means[i] = (meanUp[i] + meanDown[i]) / 2;
        }
        return max(means) - min(means);
    }

    /**
     * Bidirectional systematic deviation: range of the mean deviations of both directions.
     *
     * @return E, at least 0
     */
    public double systematicDeviation() {
        return Math.max(max(meanUp), max(meanDown)) - Math.min(min(meanUp), min(meanDown));
    }

    /**
     * Systematic deviation of the positive direction alone.
     *
     * @return at least 0
     */
    public double systematicDeviationUp() {
        return max(meanUp) - min(meanUp);
    }

    /**
     * Systematic deviation of the negative direction alone.
     *
     * @return at least 0
     */
    public double systematicDeviationDown() {
        return max(meanDown) - min(meanDown);
    }

    /**
     * Bidirectional accuracy: range of mean +- 2 s over both directions.
     *
     * @return A, at least 0
     */
    public double accuracy() {
        return Math.max(upperEnd(meanUp, deviationUp), upperEnd(meanDown, deviationDown))
                - Math.min(lowerEnd(meanUp, deviationUp), lowerEnd(meanDown, deviationDown));
    }

    /**
     * Unidirectional accuracy of the positive direction.
     *
     * @return at least 0
     */
    public double accuracyUp() {
        return upperEnd(meanUp, deviationUp) - lowerEnd(meanUp, deviationUp);
    }

    /**
     * Unidirectional accuracy of the negative direction.
     *
     * @return at least 0
     */
    public double accuracyDown() {
        return upperEnd(meanDown, deviationDown) - lowerEnd(meanDown, deviationDown);
    }

    private static double[] means(List<double[]> targets) {
        return targets.stream().mapToDouble(Statistics::mean).toArray();
    }

    private static double[] deviations(List<double[]> targets) {
        return targets.stream()
                .mapToDouble(values -> Statistics.standardDeviation(values))
                .toArray();
    }

    private static double upperEnd(double[] means, double[] deviations) {
        double[] ends = new double[means.length];
        for (int i = 0; i < ends.length; i++) {
            ends[i] = means[i] + 2 * deviations[i];
        }
        return max(ends);
    }

    private static double lowerEnd(double[] means, double[] deviations) {
        double[] ends = new double[means.length];
        for (int i = 0; i < ends.length; i++) {
            ends[i] = means[i] - 2 * deviations[i];
        }
        return min(ends);
    }

    private static double max(double[] values) {
        return Arrays.stream(values).max().orElseThrow();
    }

    private static double min(double[] values) {
        return Arrays.stream(values).min().orElseThrow();
    }
}
