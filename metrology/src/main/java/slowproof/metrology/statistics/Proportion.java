package slowproof.metrology.statistics;

import org.apache.commons.statistics.distribution.BetaDistribution;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/**
 * Intervals for a share: k successes in n independent trials. Neighbouring samples of one recording are not
 * independent; the trial is then the pass, not the sample.
 */
public final class Proportion {
    private Proportion() {}

    /**
     * Clopper-Pearson interval: covers the true share with at least the stated confidence, whatever it is (C. Clopper,
     * E. Pearson, Biometrika 26 (1934) 404, from memory).
     *
     * @param successes 0 to n
     * @param n number of trials, at least 1
     * @param level two-sided confidence level, above 0 and below 1
     * @return within 0 to 1, dimensionless
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static Interval clopperPearson(int successes, int n, double level) {
        check(successes, n, level);
        double tail = (1 - level) / 2;
        double low = successes == 0
                ? 0
                : BetaDistribution.of(successes, n - successes + 1.0).inverseCumulativeProbability(tail);
        double high = successes == n
                ? 1
                : BetaDistribution.of(successes + 1.0, n - successes).inverseSurvivalProbability(tail);
        return new Interval(low, high);
    }

    /**
     * Wilson interval: close to the stated confidence on average over shares, below it for some (E. Wilson, J. Am. Stat.
     * Assoc. 22 (1927) 209, from memory; no correction for continuity).
     *
     * @param successes 0 to n
     * @param n number of trials, at least 1
     * @param level two-sided confidence level, above 0 and below 1
     * @return within 0 to 1, dimensionless
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static Interval wilson(int successes, int n, double level) {
        check(successes, n, level);
        double z = Distributions.normalQuantile((1 + level) / 2);
        double share = (double) successes / n;
        double shrink = 1 + z * z / n;
        double centre = (share + z * z / (2 * n)) / shrink;
        double half = z * Math.sqrt(share * (1 - share) / n + z * z / (4.0 * n * n)) / shrink;
        return new Interval(
                successes == 0 ? 0 : Math.max(0, centre - half), successes == n ? 1 : Math.min(1, centre + half));
    }

    private static void check(int successes, int n, double level) {
        Check.openProbability(level, "confidence");
        if (n < 1 || successes < 0 || successes > n) {
            throw new IllegalArgumentException(
                    "successes must be 0 to the number of trials: " + successes + " of " + n);
        }
    }
}
