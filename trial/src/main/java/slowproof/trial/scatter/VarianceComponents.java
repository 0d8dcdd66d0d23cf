package slowproof.trial.scatter;

import org.jspecify.annotations.Nullable;

/**
 * What makes passes scatter: variance of one pass = start^2 starts + travel^2 L / 1 m + readings, and between
 * series series^2, all about the mean of condition and direction.
 *
 * @param passScatterMm pooled standard deviation of one pass within series and direction in mm, or null when nothing
 *     was repeated; always stands, whatever can be told apart
 * @param passDegreesOfFreedom its degrees of freedom, 0 when it is null
 * @param startScatterMm standard deviation per start in mm, or null
 * @param travelScatterMmPerSqrtM standard deviation per square root of a metre in mm, or null
 * @param splitReason why start and travel could not be told apart, or null when they were
 * @param seriesScatterMm standard deviation between series of one condition in mm, or null when no condition
 *     has two series
 * @param method how the components were found
 */
public record VarianceComponents(
        @Nullable Double passScatterMm,
        int passDegreesOfFreedom,
        @Nullable Estimate startScatterMm,
        @Nullable Estimate travelScatterMmPerSqrtM,
        @Nullable SplitReason splitReason,
        @Nullable Estimate seriesScatterMm,
        Method method) {
    /** Why start and travel scatter are not given apart. */
    public enum SplitReason {
        /** The longest stroke is less than 3 times the shortest, and no series stops and goes. */
        ONE_STROKE,
        /** Too few repeats. */
        NO_REPEATS
    }

    /** How the components were found. */
    public enum Method {
        /** Restricted maximum likelihood. */
        RESTRICTED_LIKELIHOOD,
        /** Pooled scatter only: too few repeats, or the likelihood found no maximum. */
        POOLED
    }

    /**
     * Returns the variance of one pass without its readings in mm²: from start and travel where they are known apart,
     * else from the pooled scatter less the readings.
     *
     * @param starts starts of the pass
     * @param travelMm its travel in mm
     * @param readingVarianceMm2 variance of one reading in mm²
     */
    public double passVarianceMm2(int starts, double travelMm, double readingVarianceMm2) {
        if (startScatterMm != null && travelScatterMmPerSqrtM != null) {
            double start = startScatterMm.value();
            double travel = travelScatterMmPerSqrtM.value();
            return start * start * starts + travel * travel * travelMm / 1000;
        }
        return passScatterMm == null ? 0 : Math.max(0, passScatterMm * passScatterMm - 2 * readingVarianceMm2);
    }
}
