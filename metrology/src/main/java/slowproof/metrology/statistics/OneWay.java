package slowproof.metrology.statistics;

import java.util.List;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;

/**
 * One-way analysis of variance: readings in groups such as days, series or sensors (JCGM 100:2008 H.5; ISO 5725-2:2019,
 * clause from memory). Sums of squares have the squared unit of the readings.
 *
 * @param grandMean mean of all readings
 * @param betweenSumOfSquares of the group means about the grand mean, weighted by group size, at least 0
 * @param betweenDegreesOfFreedom groups less one, at least 1
 * @param withinSumOfSquares of the readings about their group means, at least 0
 * @param withinDegreesOfFreedom readings less groups, at least 1
 * @param effectiveGroupSize n0 = (N - sum n^2 / N)/(groups - 1): the common size of balanced groups, else a little less
 *     than their mean
 */
public record OneWay(
        double grandMean,
        double betweenSumOfSquares,
        int betweenDegreesOfFreedom,
        double withinSumOfSquares,
        int withinDegreesOfFreedom,
        double effectiveGroupSize) {

    /**
     * Analyses groups of readings.
     *
     * @param groups at least two, none empty, one with at least two readings, all in one unit; not modified
     * @return the analysis
     * @throws IllegalArgumentException if there are too few groups or readings, or one is not finite
     */
    public static OneWay of(List<double[]> groups) {
        if (groups.size() < 2) {
            throw new IllegalArgumentException("an analysis of variance needs at least two groups: " + groups.size());
        }
        int count = 0;
        double squaresOfSizes = 0;
        for (double[] group : groups) {
            Check.allFinite(group, "values");
            if (group.length == 0) {
                throw new IllegalArgumentException("a group has no reading");
            }
            count += group.length;
            squaresOfSizes += (double) group.length * group.length;
        }
        int within = count - groups.size();
        if (within == 0) {
            throw new IllegalArgumentException("no group has two readings: nothing tells the scatter within groups");
        }
        // Differences of neighbouring doubles are exact: a large common part then costs no digits.
        double origin = groups.get(0)[0];
        double[] means = new double[groups.size()];
        double withinSum = 0;
        double grand = 0;
        for (int g = 0; g < means.length; g++) {
            means[g] = meanFrom(origin, groups.get(g));
            withinSum += sumAbout(origin, means[g], groups.get(g));
            grand += means[g] * groups.get(g).length;
        }
        grand /= count;
        double betweenSum = 0;
        for (int g = 0; g < means.length; g++) {
            betweenSum += groups.get(g).length * (means[g] - grand) * (means[g] - grand);
        }
        int between = groups.size() - 1;
        return new OneWay(
                origin + grand, betweenSum, between, withinSum, within, (count - squaresOfSizes / count) / between);
    }

    /**
     * Mean square between groups.
     *
     * @return at least 0, in the squared unit of the readings
     */
    public double betweenMeanSquare() {
        return betweenSumOfSquares / betweenDegreesOfFreedom;
    }

    /**
     * Mean square within groups, the repeatability variance.
     *
     * @return at least 0, in the squared unit of the readings
     */
    public double withinMeanSquare() {
        return withinSumOfSquares / withinDegreesOfFreedom;
    }

    /**
     * Ratio of the mean squares.
     *
     * @return at least 0, dimensionless; infinite when there is no scatter within groups, NaN when there is none at all
     */
    public double f() {
        return betweenMeanSquare() / withinMeanSquare();
    }

    /**
     * Probability of a ratio at least this large when all groups share one true mean.
     *
     * @return 0 to 1, dimensionless; 0 for an infinite ratio
     * @throws IllegalStateException if there is no scatter at all
     */
    public double pValue() {
        double ratio = f();
        if (Double.isNaN(ratio)) {
            throw new IllegalStateException("all readings are equal: nothing to test");
        }
        if (ratio == 0 || ratio == Double.POSITIVE_INFINITY) {
            return ratio == 0 ? 1 : 0;
        }
        // upper tail as the lower tail of the reciprocal: no cancellation for large ratios
        return Distributions.fCdf(1 / ratio, withinDegreesOfFreedom, betweenDegreesOfFreedom);
    }

    /**
     * Share of the sum of squares that lies between groups.
     *
     * @return 0 to 1, dimensionless; NaN when all readings are equal
     */
    public double betweenShare() {
        return betweenSumOfSquares / (betweenSumOfSquares + withinSumOfSquares);
    }

    /**
     * Variance between groups beyond what the scatter within explains, by the method of moments.
     *
     * @return at least 0 (a negative estimate is cut to 0), in the squared unit of the readings
     */
    public double betweenVariance() {
        return Math.max(0, (betweenMeanSquare() - withinMeanSquare()) / effectiveGroupSize);
    }

    private static double meanFrom(double origin, double[] group) {
        double sum = 0;
        for (double value : group) {
            sum += value - origin;
        }
        double first = sum / group.length;
        double rest = 0;
        for (double value : group) {
            rest += value - origin - first;
        }
        return first + rest / group.length;
    }

    private static double sumAbout(double origin, double mean, double[] group) {
        double squares = 0;
        double sum = 0;
        for (double value : group) {
            double departure = value - origin - mean;
            squares += departure * departure;
            sum += departure;
        }
        // what rounding of the mean leaves over
        return Math.max(0, squares - sum * sum / group.length);
    }
}
