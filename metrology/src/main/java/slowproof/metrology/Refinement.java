package slowproof.metrology;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleFunction;

/**
 * Places at which a costly function is asked, so that straight lines between them show it. From a few places on, the
 * stretch beside the place that lies farthest from the line through its two neighbours is halved, again and again, until
 * no place lies farther than a share of the whole range or the places are used up. Where the function changes its state
 * or stops having a value between two places, that stretch is halved first, down to 1/256 of the whole width.
 */
public final class Refinement {
    /** A change of state is placed no closer than this share of the whole width. */
    private static final double PLACED = 1.0 / 256;

    /** A stretch that bends is not halved below this share of the whole width: a jump would use up all places. */
    private static final double NARROWEST = 1.0 / 1024;

    private Refinement() {}

    /**
     * What a function says at a place.
     *
     * @param y its value, NaN where it has none
     * @param state anything that may change between places, such as whether the value is sure
     */
    public record Answer(double y, boolean state) {}

    /**
     * A place that was asked.
     *
     * @param x where
     * @param y value there, NaN for none
     * @param state state there
     */
    public record Point(double x, double y, boolean state) {}

    /**
     * Returns the places asked, in order.
     *
     * @param function the function
     * @param starts where it is asked first, strictly ascending, at least two; not modified
     * @param share of the range of all values that a place may lie beside the line through its neighbours, above zero
     * @param most places, not fewer than the starts
     * @throws IllegalArgumentException if a start or a figure is not as asked for
     */
    public static List<Point> of(DoubleFunction<Answer> function, double[] starts, double share, int most) {
        if (starts.length < 2 || most < starts.length || !(share > 0)) {
            throw new IllegalArgumentException(
                    "two starts, as many places and a share are needed: " + starts.length + ", " + most + ", " + share);
        }
        List<Point> points = new ArrayList<>();
        for (double x : starts) {
            if (!points.isEmpty() && !(x > points.get(points.size() - 1).x())) {
                throw new IllegalArgumentException("starts not in order at " + x);
            }
            points.add(asked(function, x));
        }
        while (points.size() < most) {
            int next = next(points, share);
            if (next < 0) {
                break;
            }
            double middle = 0.5 * (points.get(next).x() + points.get(next + 1).x());
            points.add(next + 1, asked(function, middle));
        }
        return List.copyOf(points);
    }

    private static Point asked(DoubleFunction<Answer> function, double x) {
        Answer answer = function.apply(x);
        return new Point(x, answer.y(), answer.state());
    }

    /** Returns the stretch to halve by the place at its left; -1 when all is fine enough. */
    private static int next(List<Point> points, double share) {
        double width = points.get(points.size() - 1).x() - points.get(0).x();
        int changed = -1;
        double widest = 1.5 * PLACED * width;
        int bent = -1;
        double farthest = share * range(points);
        for (int i = 0; i + 1 < points.size(); i++) {
            double own = points.get(i + 1).x() - points.get(i).x();
            if (changes(points.get(i), points.get(i + 1))) {
                if (own > widest) {
                    widest = own;
                    changed = i;
                }
            } else if (own > 1.5 * NARROWEST * width) {
                double off = Math.max(beside(points, i), beside(points, i + 1));
                if (off > farthest || (off == farthest && bent >= 0 && own > width(points, bent))) {
                    farthest = off;
                    bent = i;
                }
            }
        }
        return changed >= 0 ? changed : bent;
    }

    private static double width(List<Point> points, int i) {
        return points.get(i + 1).x() - points.get(i).x();
    }

    private static boolean changes(Point one, Point other) {
        return one.state() != other.state() || Double.isNaN(one.y()) != Double.isNaN(other.y());
    }

    /** Returns how far a place lies beside the line through its neighbours; 0 at the ends and beside a gap. */
    private static double beside(List<Point> points, int i) {
        if (i == 0 || i + 1 == points.size()) {
            return 0;
        }
        Point before = points.get(i - 1);
        Point at = points.get(i);
        Point after = points.get(i + 1);
        double part = (at.x() - before.x()) / (after.x() - before.x());
        double off = Math.abs(at.y() - before.y() - part * (after.y() - before.y()));
        return Double.isNaN(off) ? 0 : off;
    }

    private static double range(List<Point> points) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (Point point : points) {
            if (!Double.isNaN(point.y())) {
                low = Math.min(low, point.y());
                high = Math.max(high, point.y());
            }
        }
        return high > low ? high - low : Double.POSITIVE_INFINITY;
    }
}
