package slowproof.metrology.uncertainty;

import slowproof.metrology.Check;
import slowproof.metrology.Interval;

/**
 * The distribution of a result as found by Monte Carlo: its mean, its standard deviation, and all the values it was
 * found from, sorted. All in the unit of the result. Immutable.
 */
public final class MonteCarloResult {

    private final double estimate;
    private final double standardUncertainty;
    private final double coverageProbability;
    private final boolean stable;
    private final double[] sorted;

    MonteCarloResult(
            double estimate, double standardUncertainty, double coverageProbability, boolean stable, double[] sorted) {
        this.estimate = estimate;
        this.standardUncertainty = standardUncertainty;
        this.coverageProbability = coverageProbability;
        this.stable = stable;
        this.sorted = sorted;
    }

    /**
     * Returns the mean of the values (JCGM 101:2008, 7.6, from memory).
     *
     * @return in the unit of the result
     */
    public double estimate() {
        return estimate;
    }

    /**
     * Returns the standard deviation of the values.
     *
     * @return in the unit of the result, at least 0
     */
    public double standardUncertainty() {
        return standardUncertainty;
    }

    /**
     * Tells whether the numerical tolerance was reached.
     *
     * @return false when an adaptive run ended at its largest number of trials; true for a run of fixed size, for
     *     which nothing was asked
     */
    public boolean stable() {
        return stable;
    }

    /**
     * Returns the number of trials.
     *
     * @return at least 1
     */
    public int trials() {
        return sorted.length;
    }

    /**
     * Returns a coverage interval of the probability that the settings asked for.
     *
     * @param kind which of the intervals
     * @return in the unit of the result
     */
    public Interval interval(IntervalKind kind) {
        return SortedDraws.of(kind, sorted, coverageProbability);
    }

    /**
     * Returns the coverage probability that the settings asked for.
     *
     * @return strictly between 0 and 1
     */
    public double coverageProbability() {
        return coverageProbability;
    }

    /**
     * Returns a coverage interval of another probability.
     *
     * @param kind which of the intervals
     * @param probability strictly between 0 and 1
     * @return in the unit of the result
     * @throws IllegalArgumentException if the probability is not strictly between 0 and 1
     */
    public Interval interval(IntervalKind kind, double probability) {
        return SortedDraws.of(kind, sorted, Check.openProbability(probability, "coverage probability"));
    }

    /**
     * Returns the value below which the given share of the values lies, interpolated between neighbours.
     *
     * @param p strictly between 0 and 1
     * @return in the unit of the result
     * @throws IllegalArgumentException if {@code p} is not strictly between 0 and 1
     */
    public double quantile(double p) {
        Check.openProbability(p, "probability");
        // value i (from 0) stands at probability (i + 1/2)/n
        double at = Math.max(0, Math.min(sorted.length - 1, p * sorted.length - 0.5));
        int below = (int) at;
        int above = Math.min(below + 1, sorted.length - 1);
        return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
    }

    /**
     * Returns the share of the values in an interval, its ends included.
     *
     * @param interval in the unit of the result, ends may be infinite
     * @return 0 to 1
     */
    public double shareWithin(Interval interval) {
        int notAbove = countBelow(Math.nextUp(interval.high()));
        int below = countBelow(interval.low());
        return (double) (notAbove - below) / sorted.length;
    }

    /** How many values are smaller. */
    private int countBelow(double bound) {
        int from = 0;
        int to = sorted.length;
        while (from < to) {
            int middle = (from + to) >>> 1;
            if (sorted[middle] < bound) {
                from = middle + 1;
            } else {
                to = middle;
            }
        }
        return from;
    }
}
