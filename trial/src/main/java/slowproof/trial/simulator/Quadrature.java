package slowproof.trial.simulator;

import java.util.function.DoubleUnaryOperator;
import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;

/**
 * Integration of functions that may have all their features close to one end: the interval is divided in
 * halves towards that end, and each panel is halved again until seven-point Gauss-Legendre sums agree.
 */
final class Quadrature {
    private static final int POINTS = 7;
    private static final int PANELS_TOWARDS_START = 10;
    private static final int LARGEST_DEPTH = 24;
    private static final double TOLERANCE = 1e-11;
    private static final double[] NODES = new double[POINTS];
    private static final double[] WEIGHTS = new double[POINTS];

    static {
        GaussIntegrator rule = new GaussIntegratorFactory().legendre(POINTS);
        for (int i = 0; i < POINTS; i++) {
            NODES[i] = rule.getPoint(i);
            WEIGHTS[i] = rule.getWeight(i);
        }
    }

    private Quadrature() {}

    /** Integrates from {@code from} to {@code to}, with panels that get finer towards {@code from}. */
    static double towardsStart(DoubleUnaryOperator function, double from, double to) {
        double sum = 0;
        double right = to;
        for (int i = 0; i < PANELS_TOWARDS_START; i++) {
            double left = from + 0.5 * (right - from);
            sum += refined(function, left, right, sum(function, left, right), 0);
            right = left;
        }
        return sum + refined(function, from, right, sum(function, from, right), 0);
    }

    private static double refined(DoubleUnaryOperator function, double from, double to, double whole, int depth) {
        double middle = 0.5 * (from + to);
        double left = sum(function, from, middle);
        double right = sum(function, middle, to);
        double halves = left + right;
        if (depth == LARGEST_DEPTH || Math.abs(halves - whole) <= TOLERANCE * (1 + Math.abs(halves))) {
            return halves;
        }
        return refined(function, from, middle, left, depth + 1) + refined(function, middle, to, right, depth + 1);
    }

    private static double sum(DoubleUnaryOperator function, double from, double to) {
        double half = 0.5 * (to - from);
        double middle = 0.5 * (to + from);
        double sum = 0;
        for (int i = 0; i < POINTS; i++) {
            sum += WEIGHTS[i] * function.applyAsDouble(middle + half * NODES[i]);
        }
        return half * sum;
    }
}
