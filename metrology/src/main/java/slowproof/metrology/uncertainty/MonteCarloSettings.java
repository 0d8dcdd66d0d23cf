package slowproof.metrology.uncertainty;

import slowproof.metrology.Check;
import slowproof.metrology.sampling.Points;

/**
 * How a propagation of distributions is run.
 *
 * @param seed any number; the same seed gives the same result
 * @param threads how many may work at once, at least 1; no influence on the result
 * @param coverageProbability of the intervals, strictly between 0 and 1
 * @param points how the draws are placed
 */
public record MonteCarloSettings(long seed, int threads, double coverageProbability, Points points) {

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException if a value is outside its range
     */
    public MonteCarloSettings {
        if (threads < 1) {
            throw new IllegalArgumentException("at least one thread is needed: " + threads);
        }
        Check.openProbability(coverageProbability, "coverage probability");
    }

    /**
     * Returns settings for random points, a coverage probability of 0.95 and one thread.
     *
     * @param seed any number
     * @return the settings
     */
    public static MonteCarloSettings of(long seed) {
        return new MonteCarloSettings(seed, 1, 0.95, Points.PSEUDO_RANDOM);
    }

    /**
     * Returns the same settings with another number of threads.
     *
     * @param threads at least 1
     * @return the settings
     */
    public MonteCarloSettings withThreads(int threads) {
        return new MonteCarloSettings(seed, threads, coverageProbability, points);
    }

    /**
     * Returns the same settings with another coverage probability.
     *
     * @param coverageProbability strictly between 0 and 1
     * @return the settings
     */
    public MonteCarloSettings withCoverageProbability(double coverageProbability) {
        return new MonteCarloSettings(seed, threads, coverageProbability, points);
    }

    /**
     * Returns the same settings with points placed in another way.
     *
     * @param points how the draws are placed
     * @return the settings
     */
    public MonteCarloSettings withPoints(Points points) {
        return new MonteCarloSettings(seed, threads, coverageProbability, points);
    }
}
