package slowproof.metrology.regression;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/**
 * Two straight lines that meet: y = b0 + b1 x + b2 max(0, x - c), with the meeting point c free.
 *
 * <p>The sum of squares is searched exactly (D. Hudson, J. Am. Stat. Assoc. 61 (1966) 1097, from memory): between two
 * neighbouring abscissae the best meeting point is the crossing of the two separate lines where that lies between
 * them, else one of the two abscissae. The minimum found is therefore the global one.
 */
public final class HingeFit {
    private static final int COEFFICIENTS = 3;

    private final double[] x;
    private final double[] y;
    private final double meetingPoint;
    private final LinearFit fit;

    private HingeFit(double[] x, double[] y, double meetingPoint) {
        this.x = x;
        this.y = y;
        this.meetingPoint = meetingPoint;
        this.fit = LeastSquares.ordinary(design(x, meetingPoint), y);
    }

    /**
     * Fits the hinge.
     *
     * @param x abscissae in any order, at least four distinct ones, at least five in all; not modified
     * @param y one value per abscissa; not modified
     * @return the fit with the smallest sum of squares; the meeting point lies between the second smallest and the
     *     second largest abscissa, so that each arm rests on two places at least
     * @throws IllegalArgumentException if lengths differ, a number is not finite, or there are too few abscissae
     */
    public static HingeFit fit(double[] x, double[] y) {
        Matrices.sameLength(x.length, y.length, "values");
        Check.allFinite(x, "abscissae");
        Check.allFinite(y, "values");
        int[] order = IntStream.range(0, x.length)
                .boxed()
                .sorted(Comparator.comparingDouble(i -> x[i]))
                .mapToInt(Integer::intValue)
                .toArray();
        double[] sortedX = Arrays.stream(order).mapToDouble(i -> x[i]).toArray();
        double[] sortedY = Arrays.stream(order).mapToDouble(i -> y[i]).toArray();
        double[] places = Arrays.stream(sortedX).distinct().toArray();
        if (places.length < 4 || x.length < 5) {
            throw new IllegalArgumentException(
                    "a hinge needs at least five points at four places: " + x.length + " at " + places.length);
        }
        HingeFit best = new HingeFit(sortedX, sortedY, places[1]);
        for (int k = 1; k <= places.length - 2; k++) {
            best = better(best, new HingeFit(sortedX, sortedY, places[k]));
            if (k + 1 <= places.length - 2) {
                double crossing = crossing(sortedX, sortedY, places[k]);
                if (crossing > places[k] && crossing < places[k + 1]) {
                    best = better(best, new HingeFit(sortedX, sortedY, crossing));
                }
            }
        }
        return best;
    }

    /**
     * Abscissa at which the two lines meet.
     *
     * @return in the unit of x
     */
    public double meetingPoint() {
        return meetingPoint;
    }

    /**
     * Value of the first line at x = 0.
     *
     * @return b0, in the unit of y
     */
    public double intercept() {
        return fit.coefficient(0);
    }

    /**
     * Slope of the first line.
     *
     * @return b1, in the unit of y over that of x
     */
    public double firstSlope() {
        return fit.coefficient(1);
    }

    /**
     * Change of slope at the meeting point.
     *
     * @return b2, in the unit of y over that of x
     */
    public double changeOfSlope() {
        return fit.coefficient(2);
    }

    /**
     * Value of the fitted hinge.
     *
     * @param at abscissa
     * @return in the unit of y
     */
    public double value(double at) {
        return fit.predict(1, at, Math.max(0, at - meetingPoint));
    }

    /**
     * Sum of squared residuals.
     *
     * @return at least 0, in the squared unit of y
     */
    public double residualSumOfSquares() {
        return fit.residualSumOfSquares();
    }

    /**
     * Points less the four free numbers.
     *
     * @return at least 1, dimensionless
     */
    public int degreesOfFreedom() {
        return x.length - COEFFICIENTS - 1;
    }

    /**
     * Confidence interval of the meeting point from the profile of the sum of squares: all c whose best fit is not
     * worse than the minimum by more than the F quantile with 1 and n - 4 degrees of freedom allows. Approximate; the
     * ends are limited to the range in which the meeting point was searched.
     *
     * @param level confidence level, above 0 and below 1
     * @return the smallest interval that holds all such c, in the unit of x
     */
    public Interval meetingPointInterval(double level) {
        double quantile = Distributions.fQuantile(Check.openProbability(level, "confidence"), 1, degreesOfFreedom());
        double limit = residualSumOfSquares() * (1 + quantile / degreesOfFreedom());
        double[] places = Arrays.stream(x).distinct().toArray();
        double first = places[1];
        double last = places[places.length - 2];
        return new Interval(outermost(first, meetingPoint, limit), outermost(last, meetingPoint, limit));
    }

    // The profile has several dips; walk inwards from the end on a fine grid, then halve the step that crosses.
    private double outermost(double end, double inside, double limit) {
        int steps = 100;
        double previous = end;
        for (int k = 0; k <= steps; k++) {
            double c = end + (inside - end) * k / steps;
            if (sumOfSquaresAt(c) <= limit) {
                return k == 0 ? end : crossing(previous, c, limit);
            }
            previous = c;
        }
        return inside;
    }

    private double crossing(double outside, double inside, double limit) {
        double out = outside;
        double in = inside;
        for (int k = 0; k < 60; k++) {
            double middle = (out + in) / 2;
            if (sumOfSquaresAt(middle) <= limit) {
                in = middle;
            } else {
                out = middle;
            }
        }
        return in;
    }

    private double sumOfSquaresAt(double c) {
        return Matrices.sumOfSquares(
                new OrthogonalSolver(design(x, c), null).solve(y).residuals());
    }

    private static HingeFit better(HingeFit one, HingeFit other) {
        return other.residualSumOfSquares() < one.residualSumOfSquares() ? other : one;
    }

    // Crossing of the line through the points up to a place with the line through those beyond it; NaN if parallel.
    private static double crossing(double[] x, double[] y, double lastOfFirst) {
        int split = 0;
        while (x[split] <= lastOfFirst) {
            split++;
        }
        LinearFit first = LeastSquares.polynomial(Arrays.copyOf(x, split), Arrays.copyOf(y, split), 1);
        LinearFit second = LeastSquares.polynomial(
                Arrays.copyOfRange(x, split, x.length), Arrays.copyOfRange(y, split, x.length), 1);
        return (first.coefficient(0) - second.coefficient(0)) / (second.coefficient(1) - first.coefficient(1));
    }

    private static double[][] design(double[] x, double c) {
        double[][] rows = new double[x.length][];
        for (int i = 0; i < x.length; i++) {
            rows[i] = new double[] {1, x[i], Math.max(0, x[i] - c)};
        }
        return rows;
    }
}
