package slowproof.metrology.statistics;

import java.util.Arrays;
import org.hipparchus.analysis.solvers.BrentSolver;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;

/**
 * Grubbs' test for two outlying values on one side: sum of squares without the two largest (or the two smallest) over
 * that of all values. A small ratio speaks for two outliers (ISO 5725-2:2019, clause from memory; F. Grubbs, Ann. Math.
 * Stat. 21 (1950) 27). Dimensionless.
 */
public final class GrubbsPair {
    private static final int ANGLES = 10;
    private static final int PLACES = 16;

    private GrubbsPair() {}

    /** Which end of the ordered values is judged. */
    public enum End {
        /** The two smallest values. */
        SMALLEST,
        /** The two largest values. */
        LARGEST
    }

    /**
     * Sum of squares without the two values at one end over that of all.
     *
     * @param values at least four, finite, not all equal, any unit; not modified
     * @param end which end
     * @return 0 to 1
     * @throws IllegalArgumentException if there are fewer than four values, one is not finite, or all are equal
     */
    public static double ratio(double[] values, End end) {
        if (values.length < 4) {
            throw new IllegalArgumentException("two outlying values need at least four: " + values.length);
        }
        double all = Statistics.standardDeviation(values);
        if (all == 0) {
            throw new IllegalArgumentException("all values are equal");
        }
        double[] ordered = values.clone();
        Arrays.sort(ordered);
        int n = ordered.length;
        double[] kept = end == End.LARGEST ? Arrays.copyOf(ordered, n - 2) : Arrays.copyOfRange(ordered, 2, n);
        double rest = Statistics.standardDeviation(kept);
        return rest * rest * (n - 3) / (all * all * (n - 1));
    }

    /**
     * Value below which the ratio falls by chance with probability alpha at either end, that is alpha/2 at each.
     *
     * @param alpha above 0 and below 1: 0.05 marks stragglers, 0.01 outliers
     * @param n number of values, 4 to 200
     * @return 0 to 1
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double criticalValue(double alpha, int n) {
        Check.openProbability(alpha, "level of the test");
        Tail tail = new Tail(n);
        double wanted = alpha / 2;
        return new BrentSolver(1e-12, 1e-12).solve(200, c -> tail.probabilityBelow(c) - wanted, 1e-12, 1 - 1e-12);
    }

    /**
     * Probability that normal values give a ratio of at most this at one given end.
     *
     * @param ratio 0 to 1
     * @param n number of values, 4 to 200
     * @return 0 to 1
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static double probabilityBelow(double ratio, int n) {
        if (!(ratio >= 0 && ratio <= 1)) {
            throw new IllegalArgumentException("ratio must be from 0 to 1: " + ratio);
        }
        return ratio == 0 ? 0 : ratio == 1 ? 1 : new Tail(n).probabilityBelow(ratio);
    }

    /**
     * The exact distribution of the ratio for n normal values.
     *
     * <p>Take two given values and the other n - 2. Both exceed the largest of the others (which lies t s from their
     * mean, s^2 being their sum of squares), and the pair adds more than s^2 (1 - c)/c to the sum of squares. Measured
     * from the others' mean in units of s, the pair is a bivariate Student vector; in coordinates in which the added sum
     * of squares is the squared radius, both conditions bound the radius from below along each direction, so that the
     * probability is one integral over the direction and one over t. Any of n (n - 1)/2 pairs may be the outer one.
     */
    private static final class Tail {
        private final int n;
        private final double[] largest;
        private final double[] largestWeights;
        private final double[] smallerPart;
        private final double[] directionWeights;

        Tail(int n) {
            if (n < 4 || n > 200) {
                throw new IllegalArgumentException("two outlying values are judged among 4 to 200: " + n);
            }
            this.n = n;
            int others = n - 2;
            if (others == 2) {
                largest = new double[] {Math.sqrt(0.5)};
                largestWeights = new double[] {1};
            } else {
                StudentisedMaximum oneLess = StudentisedMaximum.of(others - 1);
                double[] places = new double[PLACES * 16];
                double[] weights = new double[PLACES * 16];
                double widest = StudentisedMaximum.widest(others);
                double total = 0;
                for (int piece = 0; piece < PLACES; piece++) {
                    Rule rule = Rule.sixteen(widest * piece / PLACES, widest * (piece + 1) / PLACES);
                    for (int k = 0; k < 16; k++) {
                        double angle = rule.point(k);
                        places[16 * piece + k] = FastMath.cos(angle) * Math.sqrt((others - 1.0) / others);
                        weights[16 * piece + k] =
                                rule.weight(k) * StudentisedMaximum.relativeDensity(others, angle, oneLess);
                        total += weights[16 * piece + k];
                    }
                }
                for (int i = 0; i < weights.length; i++) {
                    weights[i] /= total;
                }
                largest = places;
                largestWeights = weights;
            }
            // The pair has covariance I + J/(n - 2): variance n/(n - 2) along (1, 1), 1 along (1, -1). The two halves
            // about (1, 1) are alike; beyond the direction in which the smaller of the two is 0 nothing counts.
            double along = Math.sqrt(n / (n - 2.0));
            double end = FastMath.atan(along);
            smallerPart = new double[ANGLES * 16];
            directionWeights = new double[ANGLES * 16];
            for (int piece = 0; piece < ANGLES; piece++) {
                Rule rule = Rule.sixteen(end * piece / ANGLES, end * (piece + 1) / ANGLES);
                for (int k = 0; k < 16; k++) {
                    double angle = rule.point(k);
                    smallerPart[16 * piece + k] = (along * FastMath.cos(angle) - FastMath.sin(angle)) / Math.sqrt(2);
                    directionWeights[16 * piece + k] = rule.weight(k) / Math.PI;
                }
            }
        }

        double probabilityBelow(double c) {
            double radius = (1 - c) / c;
            double power = -(n - 3) / 2.0;
            double sum = 0;
            for (int i = 0; i < largest.length; i++) {
                double inner = 0;
                for (int k = 0; k < smallerPart.length; k++) {
                    double bound = largest[i] / smallerPart[k];
                    double squared = Math.max(radius, bound * bound);
                    inner += directionWeights[k] * FastMath.pow(1 + squared, power);
                }
                sum += largestWeights[i] * inner;
            }
            return Math.min(1, n * (n - 1) / 2.0 * sum);
        }
    }
}
