package slowproof.metrology.sampling;

import org.apache.commons.rng.UniformRandomProvider;
import org.hipparchus.random.SobolSequenceGenerator;

/**
 * The first points of Sobol's sequence (direction numbers of Joe and Kuo, as in Hipparchus), and the same points
 * moved by a random vector modulo 1 (Cranley and Patterson 1976). After the shift every point is uniform in the
 * unit cube, and a set of 2^k points keeps its evenness. Immutable.
 */
public final class ShiftedSobol {

    // a number that stands for zero, where quantile functions would give infinity
    private static final double SMALLEST = 0x1p-54;

    private final int dimensions;
    private final int size;
    private final double[] base;

    private ShiftedSobol(int dimensions, int size, double[] base) {
        this.dimensions = dimensions;
        this.size = size;
        this.base = base;
    }

    /**
     * Computes the points.
     *
     * @param dimensions coordinates of a point, 1 to 1000
     * @param size number of points, at least 1; best a power of two
     * @return the points
     * @throws IllegalArgumentException if an argument is outside its range
     */
    public static ShiftedSobol of(int dimensions, int size) {
        if (dimensions < 1 || dimensions > 1000) {
            throw new IllegalArgumentException("Sobol points have 1 to 1000 coordinates: " + dimensions);
        }
        if (size < 1) {
            throw new IllegalArgumentException("at least one point is needed: " + size);
        }
        SobolSequenceGenerator generator = new SobolSequenceGenerator(dimensions);
        double[] base = new double[Math.multiplyExact(dimensions, size)];
        for (int i = 0; i < size; i++) {
            System.arraycopy(generator.nextVector(), 0, base, i * dimensions, dimensions);
        }
        return new ShiftedSobol(dimensions, size, base);
    }

    /**
     * Returns the number of coordinates of a point.
     *
     * @return 1 to 1000
     */
    public int dimensions() {
        return dimensions;
    }

    /**
     * Returns the number of points.
     *
     * @return at least 1
     */
    public int size() {
        return size;
    }

    /**
     * Draws a shift.
     *
     * @param random where it comes from
     * @param shift overwritten with one number from 0 (included) to 1 (excluded) for each coordinate
     * @return the same array
     */
    public double[] randomShift(UniformRandomProvider random, double[] shift) {
        for (int j = 0; j < dimensions; j++) {
            shift[j] = random.nextDouble();
        }
        return shift;
    }

    /**
     * Computes a shifted point.
     *
     * @param index which one, 0 to size - 1
     * @param shift one number from 0 (included) to 1 (excluded) for each coordinate; not modified
     * @param u overwritten with the point, each coordinate strictly between 0 and 1
     */
    public void point(int index, double[] shift, double[] u) {
        int at = index * dimensions;
        for (int j = 0; j < dimensions; j++) {
            double sum = base[at + j] + shift[j];
            u[j] = Math.max(SMALLEST, sum >= 1 ? sum - 1 : sum);
        }
    }
}
