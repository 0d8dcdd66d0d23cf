package slowproof.metrology.statistics;

import java.util.Arrays;
import java.util.Optional;
import org.hipparchus.special.Beta;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;
import slowproof.metrology.Interval;

/**
 * Tolerance intervals from ordered readings, valid for every continuous distribution (S. Wilks, Ann. Math. Stat. 12
 * (1941) 91, from memory; ISO 16269-6:2014, distribution-free part, clause from memory).
 */
public final class DistributionFree {
    private static final int MOST_READINGS = 100_000_000;

    private DistributionFree() {}

    /**
     * Confidence that at least the stated content lies between two ordered readings that are {@code gaps} apart:
     * between the smallest and the largest of n there are n - 1 gaps, below the largest alone there are n.
     *
     * @param content share of the population, above 0 and below 1
     * @param n number of readings, at least 1
     * @param gaps 1 to n
     * @return 0 to 1, dimensionless
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double confidence(double content, int n, int gaps) {
        Check.openProbability(content, "content");
        if (n < 1 || gaps < 1 || gaps > n) {
            throw new IllegalArgumentException("gaps must be 1 to the number of readings: " + gaps + " of " + n);
        }
        // the content of that many gaps has a beta distribution with parameters gaps and n + 1 - gaps
        return 1 - Beta.regularizedBeta(content, gaps, n + 1.0 - gaps);
    }

    /**
     * Smallest number of readings whose largest alone, or whose smallest alone, bounds the content.
     *
     * @param content share of the population, above 0 and below 1
     * @param confidence above 0 and below 1
     * @return n, at least 1
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static int readingsOneSided(double content, double confidence) {
        Check.openProbability(content, "content");
        Check.openProbability(confidence, "confidence");
        // 1 - content^n >= confidence; the logarithm may miss a whole number by rounding, so try both neighbours
        double wanted = FastMath.log1p(-confidence) / FastMath.log(content);
        int n = (int) Math.max(1, Math.floor(Math.min(wanted, MOST_READINGS)) - 1);
        while (1 - FastMath.pow(content, n) < confidence - 1e-15) {
            n++;
        }
        return n;
    }

    /**
     * Smallest number of readings between whose smallest and largest the content lies.
     *
     * @param content share of the population, above 0 and below 1
     * @param confidence above 0 and below 1
     * @return n, at least 2
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static int readingsTwoSided(double content, double confidence) {
        Check.openProbability(confidence, "confidence");
        int high = 2;
        while (confidence(content, high, high - 1) < confidence) {
            if (high >= MOST_READINGS) {
                throw new IllegalArgumentException("more than " + MOST_READINGS + " readings would be needed");
            }
            high *= 2;
        }
        int low = high / 2;
        while (high - low > 1) {
            int middle = low + (high - low) / 2;
            if (middle >= 2 && confidence(content, middle, middle - 1) >= confidence) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return high;
    }

    /**
     * Two-sided interval between ordered readings, as many left out at either end as the confidence allows.
     *
     * @param values readings, finite, any unit; not modified
     * @param content share of the population, above 0 and below 1
     * @param confidence above 0 and below 1
     * @return the interval, or empty when there are too few readings even for the extremes
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static Optional<Interval> interval(double[] values, double content, double confidence) {
        Check.allFinite(values, "values");
        Check.openProbability(content, "content");
        Check.openProbability(confidence, "confidence");
        int n = values.length;
        int left = -1;
        while (n - 1 - 2 * (left + 1) >= 1 && confidence(content, n, n - 1 - 2 * (left + 1)) >= confidence) {
            left++;
        }
        if (left < 0) {
            return Optional.empty();
        }
        double[] ordered = values.clone();
        Arrays.sort(ordered);
        return Optional.of(new Interval(ordered[left], ordered[n - 1 - left]));
    }
}
