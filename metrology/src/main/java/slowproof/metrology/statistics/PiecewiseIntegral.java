package slowproof.metrology.statistics;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;

/** Integrals of smooth functions, piece by piece with a 16-point Gauss-Legendre rule. */
final class PiecewiseIntegral {
    private PiecewiseIntegral() {}

    /** Integral over pieces that meet at the given increasing points. */
    static double over(DoubleUnaryOperator f, double... points) {
        double sum = 0;
        for (int i = 1; i < points.length; i++) {
            if (points[i] > points[i - 1]) {
                Rule rule = Rule.sixteen(points[i - 1], points[i]);
                for (int k = 0; k < rule.size(); k++) {
                    sum += rule.weight(k) * f.applyAsDouble(rule.point(k));
                }
            }
        }
        return sum;
    }

    /** Integral over equal pieces of an interval. */
    static double over(DoubleUnaryOperator f, double low, double high, int pieces) {
        return over(f, evenly(low, high, pieces));
    }

    /** Ends of equal pieces of an interval. */
    static double[] evenly(double low, double high, int pieces) {
        double[] points = new double[pieces + 1];
        for (int i = 0; i <= pieces; i++) {
            points[i] = low + (high - low) * i / pieces;
        }
        points[pieces] = high;
        return points;
    }

    /** Increasing points of both sets that lie within an interval, and its ends. */
    static double[] merged(double low, double high, double[] one, double[] other) {
        double[] all = new double[one.length + other.length + 2];
        int size = 0;
        all[size++] = low;
        all[size++] = high;
        for (double[] points : new double[][] {one, other}) {
            for (double point : points) {
                if (point > low && point < high) {
                    all[size++] = point;
                }
            }
        }
        double[] result = Arrays.copyOf(all, size);
        Arrays.sort(result);
        return result;
    }
}
