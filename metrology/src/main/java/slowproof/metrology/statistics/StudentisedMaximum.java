package slowproof.metrology.statistics;

import java.util.Arrays;
import org.hipparchus.util.FastMath;

/**
 * Exact distribution of the largest of N normal values, measured from their mean in units of the root of their sum of
 * squares, by recursion over N (after the recursion for one-sided outlier tests of H. David, from memory).
 *
 * <p>A place is an angle a with (largest - mean)/root = cos(a) sqrt((N - 1)/N). The centred values point in a random
 * direction, so a single one has density proportional to sin(a)^(N - 3); it is the largest if the largest of the other
 * N - 1 does not exceed it, and those are again in a random direction, independent of a.
 */
final class StudentisedMaximum {
    private static final int GRID = 200;

    private final int n;
    private final double widest;
    // probability of an angle of at most i/GRID of the widest, null for two values, whose angle is 0
    private final double[] cumulative;

    private StudentisedMaximum(int n, double widest, double[] cumulative) {
        this.n = n;
        this.widest = widest;
        this.cumulative = cumulative;
    }

    static StudentisedMaximum of(int n) {
        StudentisedMaximum result = new StudentisedMaximum(2, 0, new double[] {1});
        for (int size = 3; size <= n; size++) {
            result = result.withOneMore();
        }
        return result;
    }

    /** Widest possible angle of the largest of n values: all others equal. */
    static double widest(int n) {
        return FastMath.acos(1.0 / (n - 1));
    }

    /** Density of the angle of the largest of n values, at least three, but for a constant factor. */
    static double relativeDensity(int n, double angle, StudentisedMaximum oneLess) {
        return FastMath.pow(FastMath.sin(angle), n - 3)
                * oneLess.atMost(1 / FastMath.tan(angle) * Math.sqrt(n / (n - 1.0)));
    }

    /** Probability that the largest lies at most t from the mean. */
    double atMost(double t) {
        double cosine = t * Math.sqrt(n / (n - 1.0));
        if (n == 2) {
            return t >= Math.sqrt(0.5) ? 1 : 0;
        }
        if (cosine >= 1) {
            return 1;
        }
        double angle = FastMath.acos(Math.max(-1, cosine));
        if (angle >= widest) {
            return 0;
        }
        double place = angle / widest * GRID;
        int below = Math.min(GRID - 1, Math.max(0, (int) place));
        return 1 - cubic(below, place - below);
    }

    private StudentisedMaximum withOneMore() {
        int size = n + 1;
        double range = widest(size);
        double[] sums = new double[GRID + 1];
        for (int i = 1; i <= GRID; i++) {
            sums[i] = sums[i - 1]
                    + PiecewiseIntegral.over(
                            angle -> relativeDensity(size, angle, this), range * (i - 1) / GRID, range * i / GRID);
        }
        double total = sums[GRID];
        return new StudentisedMaximum(
                size, range, Arrays.stream(sums).map(sum -> sum / total).toArray());
    }

    // four-point interpolation
    private double cubic(int below, double share) {
        int first = Math.max(0, Math.min(GRID - 3, below - 1));
        double t = below + share - first;
        double result = 0;
        for (int k = 0; k <= 3; k++) {
            double weight = 1;
            for (int m = 0; m <= 3; m++) {
                if (m != k) {
                    weight *= (t - m) / (k - m);
                }
            }
            result += weight * cumulative[first + k];
        }
        return Math.max(0, Math.min(1, result));
    }
}
