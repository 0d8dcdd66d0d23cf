package slowproof.metrology.sampling;

import slowproof.metrology.Check;

/**
 * How much work goes into sensitivity indices.
 *
 * @param pointsPerBlock base points of one block, at least 2; a power of two suits Sobol points
 * @param blocks independent blocks, at least 2; their scatter gives the intervals
 * @param points how the base points are placed
 * @param confidence of the intervals, strictly between 0 and 1
 * @param seed any number
 * @param threads how many may work at once, at least 1; no influence on the result
 */
public record SensitivityPlan(
        int pointsPerBlock, int blocks, Points points, double confidence, long seed, int threads) {

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException if one is outside its range
     */
    public SensitivityPlan {
        if (pointsPerBlock < 2 || blocks < 2 || threads < 1) {
            throw new IllegalArgumentException("sensitivity needs at least 2 points, 2 blocks and 1 thread: "
                    + pointsPerBlock + ", " + blocks + ", " + threads);
        }
        Check.openProbability(confidence, "confidence");
    }

    /**
     * Returns a plan that gives indices of a smooth model to about 0.001: 32 blocks of 1024 Sobol points, intervals
     * of 95 %, one thread.
     *
     * @param seed any number
     * @return the plan
     */
    public static SensitivityPlan of(long seed) {
        return new SensitivityPlan(1024, 32, Points.SOBOL, 0.95, seed, 1);
    }
}
