package slowproof.metrology.statistics;

import java.util.Arrays;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;

/**
 * Normal probability plot: how straight ordered readings lie against the medians of ordered normal values (J. Filliben,
 * Technometrics 17 (1975) 111, from memory; NIST/SEMATECH e-Handbook 1.3.3.21).
 */
public final class NormalPlot {
    private NormalPlot() {}

    /**
     * Where each ordered reading is expected, in standard deviations from the mean.
     *
     * @param n number of readings, at least 3
     * @return increasing, symmetric about 0, dimensionless
     * @throws IllegalArgumentException if n is below 3
     */
    public static double[] places(int n) {
        if (n < 3) {
            throw new IllegalArgumentException("a probability plot needs at least three readings: " + n);
        }
        double[] result = new double[n];
        double last = FastMath.pow(0.5, 1.0 / n);
        for (int i = 0; i < n; i++) {
            double median = i == 0 ? 1 - last : i == n - 1 ? last : (i + 1 - 0.3175) / (n + 0.365);
            result[i] = Distributions.normalQuantile(median);
        }
        return result;
    }

    /**
     * Correlation of the ordered readings with their places: 1 for a straight plot.
     *
     * @param values at least three, finite, not all equal, any unit; not modified
     * @return above 0 and at most 1, dimensionless
     * @throws IllegalArgumentException if there are fewer than three values, one is not finite, or all are equal
     */
    public static double correlation(double[] values) {
        double[] places = places(values.length);
        if (Statistics.standardDeviation(values) == 0) {
            throw new IllegalArgumentException("all values are equal");
        }
        return correlation(values, places);
    }

    /**
     * Value below which the correlation of normal readings falls with probability alpha, by simulation.
     *
     * @param alpha above 0 and below 1
     * @param n number of readings, at least 3
     * @param draws number of simulated samples, at least 1000
     * @param seed of the draws
     * @return above 0 and below 1, dimensionless
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double criticalValue(double alpha, int n, int draws, long seed) {
        Check.openProbability(alpha, "level of the test");
        if (draws < 1000) {
            throw new IllegalArgumentException("a simulated quantile needs at least 1000 draws: " + draws);
        }
        double[] places = places(n);
        UniformRandomProvider random = RandomSource.XO_SHI_RO_256_PP.create(seed);
        ZigguratSampler.NormalizedGaussian normal = ZigguratSampler.NormalizedGaussian.of(random);
        double[] found = new double[draws];
        double[] sample = new double[n];
        for (int draw = 0; draw < draws; draw++) {
            for (int i = 0; i < n; i++) {
                sample[i] = normal.sample();
            }
            found[draw] = correlation(sample, places);
        }
        Arrays.sort(found);
        return found[(int) (alpha * draws)];
    }

    private static double correlation(double[] values, double[] places) {
        double[] ordered = values.clone();
        Arrays.sort(ordered);
        double mean = Arrays.stream(ordered).sum() / ordered.length;
        double product = 0;
        double squares = 0;
        double placeSquares = 0;
        for (int i = 0; i < ordered.length; i++) {
            product += (ordered[i] - mean) * places[i];
            squares += (ordered[i] - mean) * (ordered[i] - mean);
            placeSquares += places[i] * places[i];
        }
        return Math.min(1, product / Math.sqrt(squares * placeSquares));
    }
}
