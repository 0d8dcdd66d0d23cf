package slowproof.metrology.regression;

import java.util.Arrays;
import slowproof.metrology.Check;
import slowproof.metrology.Interval;

/**
 * B-splines on a set of knots: functions that sum to 1, each reaching over a few neighbouring gaps. Degree 1 gives
 * hat functions, degree 3 smooth curves (C. de Boor, A Practical Guide to Splines, from memory).
 *
 * <p>Outside the knots there is no value: an abscissa there is refused.
 */
public final class SplineBasis {
    private final double[] knots;
    private final double[] padded;
    private final int degree;

    private SplineBasis(double[] knots, int degree) {
        this.knots = knots;
        this.degree = degree;
        padded = new double[knots.length + 2 * degree];
        Arrays.fill(padded, 0, degree, knots[0]);
        System.arraycopy(knots, 0, padded, degree, knots.length);
        Arrays.fill(padded, degree + knots.length, padded.length, knots[knots.length - 1]);
    }

    /**
     * A basis on given knots.
     *
     * @param degree 1 to 5
     * @param knots strictly increasing, at least two, in the unit of the abscissa; not modified
     * @return the basis
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static SplineBasis onKnots(int degree, double... knots) {
        if (degree < 1 || degree > 5) {
            throw new IllegalArgumentException("degree must be 1 to 5: " + degree);
        }
        if (knots.length < 2) {
            throw new IllegalArgumentException("a basis needs at least two knots: " + knots.length);
        }
        Check.allFinite(knots, "knots");
        for (int i = 1; i < knots.length; i++) {
            if (!(knots[i] > knots[i - 1])) {
                throw new IllegalArgumentException(
                        "knots must increase: " + knots[i - 1] + " is followed by " + knots[i]);
            }
        }
        return new SplineBasis(knots.clone(), degree);
    }

    /**
     * A basis on equally spaced knots.
     *
     * @param degree 1 to 5
     * @param low first knot, in the unit of the abscissa
     * @param high last knot, above {@code low}
     * @param gaps number of gaps between knots, at least 1
     * @return the basis
     * @throws IllegalArgumentException if an argument is out of its range
     */
    public static SplineBasis evenly(int degree, double low, double high, int gaps) {
        if (gaps < 1) {
            throw new IllegalArgumentException("a basis needs at least one gap: " + gaps);
        }
        double[] knots = new double[gaps + 1];
        for (int i = 0; i <= gaps; i++) {
            knots[i] = low + (high - low) * i / gaps;
        }
        knots[gaps] = high;
        return onKnots(degree, knots);
    }

    /**
     * Number of functions.
     *
     * @return knots - 1 + degree
     */
    public int size() {
        return knots.length - 1 + degree;
    }

    /**
     * The interval in which the functions have values.
     *
     * @return first and last knot
     */
    public Interval range() {
        return new Interval(knots[0], knots[knots.length - 1]);
    }

    /**
     * Values of all functions at a point.
     *
     * @param x within the range
     * @return one number per function, at least 0, summing to 1
     * @throws IllegalArgumentException if x is outside the range or NaN
     */
    public double[] row(double x) {
        if (!range().contains(x)) {
            throw new IllegalArgumentException(
                    "no value at " + x + " outside the knots " + knots[0] + " to " + knots[knots.length - 1]);
        }
        int gap = Arrays.binarySearch(knots, x);
        gap = gap >= 0 ? Math.min(gap, knots.length - 2) : -gap - 2;
        int last = gap + degree;
        // de Boor's recurrence over the degree + 1 functions that are not zero in this gap
        double[] local = new double[degree + 1];
        local[0] = 1;
        for (int d = 1; d <= degree; d++) {
            double carried = 0;
            for (int j = 0; j < d; j++) {
                double right = padded[last + j + 1];
                double left = padded[last + j + 1 - d];
                double share = local[j] / (right - left);
                local[j] = carried + (right - x) * share;
                carried = (x - left) * share;
            }
            local[d] = carried;
        }
        double[] result = new double[size()];
        System.arraycopy(local, 0, result, gap, degree + 1);
        return result;
    }

    /**
     * Values of all functions at several points.
     *
     * @param x points within the range; not modified
     * @return one row per point
     * @throws IllegalArgumentException if a point is outside the range or NaN
     */
    public double[][] rows(double[] x) {
        double[][] result = new double[x.length][];
        for (int i = 0; i < x.length; i++) {
            result[i] = row(x[i]);
        }
        return result;
    }

    /**
     * The place each coefficient speaks for (Greville abscissa): coefficients equal to these places give the function
     * f(x) = x.
     *
     * @return one place per function, increasing, in the unit of the abscissa
     */
    public double[] places() {
        double[] result = new double[size()];
        for (int i = 0; i < result.length; i++) {
            double sum = 0;
            for (int k = 1; k <= degree; k++) {
                sum += padded[i + k];
            }
            result[i] = sum / degree;
        }
        return result;
    }

    /**
     * First divided differences of the coefficients, one row per neighbouring pair: the slopes between places. All at
     * least 0 make the function increasing.
     *
     * @return rows for a coefficient vector
     */
    public double[][] slopes() {
        double[] places = places();
        double[][] rows = new double[size() - 1][size()];
        for (int i = 0; i < rows.length; i++) {
            double step = places[i + 1] - places[i];
            rows[i][i] = -1 / step;
            rows[i][i + 1] = 1 / step;
        }
        return rows;
    }

    /**
     * Changes of slope from one pair of coefficients to the next. All at least 0 make the function convex.
     *
     * @return rows for a coefficient vector
     */
    public double[][] bends() {
        double[][] slopes = slopes();
        double[][] rows = new double[size() - 2][size()];
        for (int i = 0; i < rows.length; i++) {
            for (int j = 0; j < size(); j++) {
                rows[i][j] = slopes[i + 1][j] - slopes[i][j];
            }
        }
        return rows;
    }

    /**
     * Root of the roughness penalty: the sum of its squares approximates the integral of the squared second derivative.
     * A straight line costs nothing.
     *
     * @return rows for a coefficient vector
     */
    public double[][] roughness() {
        double[] places = places();
        double[][] rows = bends();
        for (int i = 0; i < rows.length; i++) {
            double width = Math.sqrt((places[i + 2] - places[i]) / 2);
            for (int j = 0; j < size(); j++) {
                rows[i][j] /= width;
            }
        }
        return rows;
    }
}
