package slowproof.metrology.statistics;

import java.util.Comparator;
import java.util.stream.IntStream;

/**
 * Many tests at once. Among m tests at level alpha, m alpha cry wolf by chance; Holm's procedure keeps the probability
 * of even one false alarm at alpha (S. Holm, Scand. J. Stat. 6 (1979) 65, from memory).
 */
public final class MultipleTests {
    private MultipleTests() {}

    /**
     * Adjusted p-values: those of at most alpha may be rejected together at level alpha.
     *
     * @param pValues each 0 to 1; not modified
     * @return one adjusted value per test, in the same order, each at least its own p-value and at most 1
     * @throws IllegalArgumentException if a value is not from 0 to 1
     */
    public static double[] holm(double[] pValues) {
        for (double p : pValues) {
            if (!(p >= 0 && p <= 1)) {
                throw new IllegalArgumentException("a p-value must be from 0 to 1: " + p);
            }
        }
        int[] order = IntStream.range(0, pValues.length)
                .boxed()
                .sorted(Comparator.comparingDouble(i -> pValues[i]))
                .mapToInt(Integer::intValue)
                .toArray();
        double[] adjusted = new double[pValues.length];
        double largest = 0;
        for (int k = 0; k < order.length; k++) {
            largest = Math.max(largest, Math.min(1, (order.length - k) * pValues[order[k]]));
            adjusted[order[k]] = largest;
        }
        return adjusted;
    }
}
