package slowproof.metrology.regression;

import java.util.Arrays;
import slowproof.metrology.Check;

/**
 * Straight line through points with errors in both coordinates (D. York et al., Am. J. Phys. 72 (2004) 367, from
 * memory; ISO/TS 28037:2010, clauses 7 and 8, from memory, asks for the same minimum).
 *
 * <p>Points must be independent of each other: increments between standstills, not cumulative readings.
 */
public final class YorkFit {
    private static final int MOST_STEPS = 1000;
    private static final double CONVERGED = 1e-15;

    private YorkFit() {}

    /**
     * Fits with uncorrelated errors.
     *
     * @param x abscissae, at least two distinct ones; not modified
     * @param y ordinates, one per abscissa; not modified
     * @param xUncertainties standard uncertainties of the x, at least 0; not modified
     * @param yUncertainties standard uncertainties of the y, at least 0, in each point at least one of the two above 0;
     *     not modified
     * @return the line, its covariance following from the stated uncertainties
     * @throws IllegalArgumentException if an argument is out of its range or lengths differ
     * @throws IllegalStateException if the search for the slope does not settle
     */
    public static StraightLine fit(double[] x, double[] y, double[] xUncertainties, double[] yUncertainties) {
        return fit(x, y, xUncertainties, yUncertainties, new double[x.length]);
    }

    /**
     * Fits with errors of x and y that are correlated within each point.
     *
     * @param x abscissae, at least two distinct ones; not modified
     * @param y ordinates, one per abscissa; not modified
     * @param xUncertainties standard uncertainties of the x, at least 0; not modified
     * @param yUncertainties standard uncertainties of the y, at least 0, in each point at least one of the two above 0;
     *     not modified
     * @param correlations between the errors of each point, above -1 and below 1; not modified
     * @return the line, its covariance following from the stated uncertainties
     * @throws IllegalArgumentException if an argument is out of its range or lengths differ
     * @throws IllegalStateException if the search for the slope does not settle
     */
    public static StraightLine fit(
            double[] x, double[] y, double[] xUncertainties, double[] yUncertainties, double[] correlations) {
        check(x, y, xUncertainties, yUncertainties, correlations);
        YorkSums sums = new YorkSums(x, y, xUncertainties, yUncertainties, correlations);
        double slope = startingSlope(x, y);
        double last = Double.POSITIVE_INFINITY;
        for (int step = 0; step < MOST_STEPS; step++) {
            double next = sums.at(slope).nextSlope();
            double change = Math.abs(next - slope);
            slope = next;
            boolean settled = change <= CONVERGED * Math.abs(slope);
            // the last bits may swing for ever
            boolean swinging = change >= last && change <= 1e3 * CONVERGED * Math.abs(slope);
            if (settled || swinging) {
                return sums.at(slope).line();
            }
            last = change;
        }
        throw new IllegalStateException("the slope does not settle: the points do not determine a line");
    }

    /**
     * Deming regression: errors in both axes with one known ratio of variances and an unknown size.
     *
     * @param x abscissae, at least three, not all alike; not modified
     * @param y ordinates, one per abscissa; not modified
     * @param varianceRatio variance of the y errors over that of the x errors, above 0, in the squared unit of y over
     *     that of x
     * @return the line, its covariance estimated from the scatter about it
     * @throws IllegalArgumentException if an argument is out of its range or lengths differ
     * @throws IllegalStateException if the search for the slope does not settle
     */
    public static StraightLine deming(double[] x, double[] y, double varianceRatio) {
        Check.positive(varianceRatio, "variance ratio");
        if (x.length < 3) {
            throw new IllegalArgumentException("a line of unknown scatter needs at least three points: " + x.length);
        }
        double[] ones = new double[x.length];
        Arrays.fill(ones, 1);
        double[] roots = new double[x.length];
        Arrays.fill(roots, Math.sqrt(varianceRatio));
        return fit(x, y, ones, roots).rescaled();
    }

    private static double startingSlope(double[] x, double[] y) {
        double slope = LeastSquares.polynomial(x, y, 1).coefficient(1);
        // a slope of exactly 0 hides every error in x and the iteration would stay there
        return slope == 0 ? Double.MIN_NORMAL : slope;
    }

    private static void check(double[] x, double[] y, double[] ux, double[] uy, double[] correlations) {
        Matrices.sameLength(x.length, y.length, "ordinates");
        Matrices.sameLength(x.length, ux.length, "standard uncertainties of x");
        Matrices.sameLength(x.length, uy.length, "standard uncertainties of y");
        Matrices.sameLength(x.length, correlations.length, "correlations");
        for (int i = 0; i < x.length; i++) {
            Check.notNegative(ux[i], "standard uncertainty of x");
            Check.notNegative(uy[i], "standard uncertainty of y");
            if (ux[i] == 0 && uy[i] == 0) {
                throw new IllegalArgumentException("point " + (i + 1) + " has no uncertainty in either coordinate");
            }
            if (!(Math.abs(correlations[i]) < 1)) {
                throw new IllegalArgumentException("correlation must lie between -1 and 1: " + correlations[i]);
            }
        }
    }
}
