package slowproof.metrology.sampling;

import org.apache.commons.rng.UniformRandomProvider;
import slowproof.metrology.Distributions;

/**
 * Standard normal values from 64 random bits each, by 1024 layers of equal area under the density (ziggurat of Marsaglia
 * and Tsang, J. Stat. Softw. 5(8) (2000), with separate bits for layer and place after Doornik (2005); from memory).
 * In 99.6 % of the draws a multiplication and a comparison are all there is to do.
 *
 * <p>The low 10 bits choose the layer, all bits as a signed number the place in it: the layer's bits shift the place by
 * less than the spacing of doubles.
 */
public final class NormalTable {
    private static final int BITS = 10;
    private static final int LAYERS = 1 << BITS;
    private static final int MASK = LAYERS - 1;
    private static final double ROOT_HALF_PI = Math.sqrt(Math.PI / 2);

    // ends of the layers from the widest, which holds the tail, to 0; density without its factor at these
    private static final double[] END = new double[LAYERS + 1];
    private static final double[] DENSITY = new double[LAYERS + 1];
    private static final double[] PER_STEP = new double[LAYERS];
    private static final double[] INSIDE = new double[LAYERS];
    private static final double TAIL;

    static {
        double low = 3;
        double high = 6;
        for (int k = 0; k < 100; k++) {
            double middle = 0.5 * (low + high);
            if (overshoot(middle) > 0) {
                low = middle;
            } else {
                high = middle;
            }
        }
        TAIL = high;
        double area = area(TAIL);
        END[0] = area / density(TAIL);
        END[1] = TAIL;
        for (int i = 2; i < LAYERS; i++) {
            END[i] = Math.sqrt(-2 * Math.log(Math.min(1, area / END[i - 1] + density(END[i - 1]))));
        }
        END[LAYERS] = 0;
        for (int i = 0; i <= LAYERS; i++) {
            DENSITY[i] = density(END[i]);
        }
        for (int i = 0; i < LAYERS; i++) {
            PER_STEP[i] = END[i] * 0x1.0p-63;
            INSIDE[i] = END[i + 1];
        }
    }

    private NormalTable() {}

    private static double density(double x) {
        return Math.exp(-0.5 * x * x);
    }

    /** Area of each layer when the tail begins at {@code tail}: rectangle below it and tail. */
    private static double area(double tail) {
        return tail * density(tail) + 2 * ROOT_HALF_PI * Distributions.normalCdf(-tail);
    }

    /** By how much the uppermost layer rises above the density at 0; falls with the place where the tail begins. */
    private static double overshoot(double tail) {
        double area = area(tail);
        double x = tail;
        for (int i = 2; i < LAYERS; i++) {
            double height = area / x + density(x);
            if (height >= 1) {
                return 1;
            }
            x = Math.sqrt(-2 * Math.log(height));
        }
        return area / x + density(x) - 1;
    }

    /**
     * Returns a standard normal value.
     *
     * @param bits 64 random bits
     * @param further asked for more in the rare cases where these do not settle it
     */
    public static double normal(long bits, UniformRandomProvider further) {
        int layer = (int) bits & MASK;
        double x = bits * PER_STEP[layer];
        return Math.abs(x) < INSIDE[layer] ? x : beyond(bits, further);
    }

    /**
     * Adds scaled standard normal values to a stretch of an array.
     *
     * @param sum added to
     * @param from first place
     * @param to place after the last
     * @param scale factor on each value
     * @param bits 64 random bits for each, at the same places
     * @param further asked for more in rare cases
     */
    public static void add(double[] sum, int from, int to, double scale, long[] bits, UniformRandomProvider further) {
        for (int i = from; i < to; i++) {
            sum[i] += scale * normal(bits[i], further);
        }
    }

    private static double beyond(long first, UniformRandomProvider further) {
        long bits = first;
        while (true) {
            int layer = (int) bits & MASK;
            double x = bits * PER_STEP[layer];
            if (Math.abs(x) < INSIDE[layer]) {
                return x;
            }
            if (layer == 0) {
                return x < 0 ? -tail(further) : tail(further);
            }
            double height = DENSITY[layer] + further.nextDouble() * (DENSITY[layer + 1] - DENSITY[layer]);
            if (height < density(x)) {
                return x;
            }
            bits = further.nextLong();
        }
    }

    /** Draws from the tail (Marsaglia 1964): an exponential step that a second one accepts. */
    private static double tail(UniformRandomProvider further) {
        while (true) {
            double beyond = -Math.log(1 - further.nextDouble()) / TAIL;
            if (-2 * Math.log(1 - further.nextDouble()) >= beyond * beyond) {
                return TAIL + beyond;
            }
        }
    }
}
