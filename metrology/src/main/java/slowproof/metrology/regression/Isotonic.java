package slowproof.metrology.regression;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;
import slowproof.metrology.Check;

/**
 * Monotone least-squares regression by pooling adjacent violators (Barlow et al., Statistical Inference under Order
 * Restrictions (1972), from memory; algorithm as described by F. Busing, J. Stat. Software 102 (2022)).
 *
 * <p>The fit is a step function: constant from each abscissa up to the next, and level outside the data.
 */
public final class Isotonic {
    private final double[] x;
    private final double[] levels;

    private Isotonic(double[] x, double[] levels) {
        this.x = x;
        this.levels = levels;
    }

    /**
     * The non-decreasing sequence closest to the values.
     *
     * @param y values in order; not modified
     * @param weights above 0, one per value; not modified
     * @return one fitted value per value
     * @throws IllegalArgumentException if lengths differ, a number is not finite, a weight is not above 0, or there is
     *     no value
     */
    public static double[] increasing(double[] y, double[] weights) {
        check(y, weights);
        int size = y.length;
        double[] level = new double[size];
        double[] weight = new double[size];
        int[] count = new int[size];
        int blocks = 0;
        for (int i = 0; i < size; i++) {
            level[blocks] = y[i];
            weight[blocks] = weights[i];
            count[blocks] = 1;
            blocks++;
            while (blocks > 1 && level[blocks - 2] > level[blocks - 1]) {
                double sum = weight[blocks - 2] + weight[blocks - 1];
                level[blocks - 2] += (level[blocks - 1] - level[blocks - 2]) * (weight[blocks - 1] / sum);
                weight[blocks - 2] = sum;
                count[blocks - 2] += count[blocks - 1];
                blocks--;
            }
        }
        double[] result = new double[size];
        int next = 0;
        for (int block = 0; block < blocks; block++) {
            Arrays.fill(result, next, next + count[block], level[block]);
            next += count[block];
        }
        return result;
    }

    /**
     * The non-increasing sequence closest to the values.
     *
     * @param y values in order; not modified
     * @param weights above 0, one per value; not modified
     * @return one fitted value per value
     * @throws IllegalArgumentException as for {@link #increasing(double[], double[])}
     */
    public static double[] decreasing(double[] y, double[] weights) {
        return negated(increasing(negated(y), weights));
    }

    /**
     * Fits a non-decreasing step function; equal abscissae are averaged first.
     *
     * @param x abscissae in any order; not modified
     * @param y one value per abscissa; not modified
     * @return the step function
     * @throws IllegalArgumentException if lengths differ, a number is not finite or there is no value
     */
    public static Isotonic increasingIn(double[] x, double[] y) {
        Matrices.sameLength(x.length, y.length, "values");
        Check.allFinite(x, "abscissae");
        int[] order = IntStream.range(0, x.length)
                .boxed()
                .sorted(Comparator.comparingDouble(i -> x[i]))
                .mapToInt(Integer::intValue)
                .toArray();
        double[] places = new double[x.length];
        double[] means = new double[x.length];
        double[] counts = new double[x.length];
        int size = 0;
        for (int i : order) {
            if (size == 0 || x[i] != places[size - 1]) {
                places[size] = x[i];
                means[size] = y[i];
                counts[size] = 1;
                size++;
            } else {
                counts[size - 1]++;
                means[size - 1] += (y[i] - means[size - 1]) / counts[size - 1];
            }
        }
        return new Isotonic(
                Arrays.copyOf(places, size), increasing(Arrays.copyOf(means, size), Arrays.copyOf(counts, size)));
    }

    /**
     * Value of the step function.
     *
     * @param at abscissa, in the unit of x
     * @return in the unit of the values; before the first abscissa the first level
     * @throws IllegalArgumentException if the abscissa is not finite
     */
    public double value(double at) {
        int index = Arrays.binarySearch(x, Check.finite(at, "abscissa"));
        int below = index >= 0 ? index : -index - 2;
        return levels[Math.max(0, below)];
    }

    private static void check(double[] y, double[] weights) {
        if (y.length == 0) {
            throw new IllegalArgumentException("a monotone fit needs at least one value");
        }
        Check.allFinite(y, "values");
        Matrices.sameLength(y.length, weights.length, "weights");
        Matrices.positive(weights, "weight");
    }

    private static double[] negated(double[] values) {
        return Arrays.stream(values).map(v -> -v).toArray();
    }
}
