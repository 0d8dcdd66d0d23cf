package slowproof.metrology;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Refinement.Answer;
import slowproof.metrology.Refinement.Point;

/** Few places show a function: they gather where it bends, breaks off or changes its state. */
class RefinementTest {
    private static final double[] NINE = {0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1};

    private static List<Point> refined(DoubleUnaryOperator function, int most) {
        return Refinement.of(x -> new Answer(function.applyAsDouble(x), true), NINE, 0.01, most);
    }

    /** Farthest that straight lines between the places lie from the function, as a share of its range 1. */
    private static double worst(List<Point> points, DoubleUnaryOperator function) {
        double worst = 0;
        for (int i = 0; i + 1 < points.size(); i++) {
            Point a = points.get(i);
            Point b = points.get(i + 1);
            for (int k = 1; k < 50; k++) {
                double share = k / 50.0;
                double line = a.y() + share * (b.y() - a.y());
                worst = Math.max(worst, Math.abs(line - function.applyAsDouble(a.x() + share * (b.x() - a.x()))));
            }
        }
        return worst;
    }

    @Test
    void aStraightLineNeedsNoMorePlaces() {
        assertThat(refined(x -> 3 - 2 * x, 33)).hasSize(9);
        assertThat(refined(x -> 7, 33)).hasSize(9);
    }

    @Test
    void placesGatherAtABend() {
        // level up to 0.3, then straight down to 0: the bend lies between two starts
        DoubleUnaryOperator bent = x -> x < 0.3 ? 1 : (1 - x) / 0.7;
        List<Point> points = refined(bent, 33);
        assertThat(points.size()).isLessThan(20);
        assertThat(worst(points, bent)).isLessThan(0.01);
        assertThat(points.stream().filter(p -> p.x() > 0.25 && p.x() < 0.375).count())
                .isGreaterThan(points.stream().filter(p -> p.x() > 0.5).count() - 4);
        assertThat(points.stream().filter(p -> p.x() > 0.5).count()).isEqualTo(4);
    }

    @Test
    void aSmoothCurveIsShownWithinAHundredthAndASteepOneWithinItsPlaces() {
        DoubleUnaryOperator smooth = x -> Math.exp(-4 * x);
        assertThat(worst(refined(smooth, 33), smooth)).isLessThan(0.01);
        DoubleUnaryOperator jump = x -> x < 0.7123 ? 1 : 0;
        List<Point> points = refined(jump, 33);
        // a jump is placed to a thousandth of the width and then left alone
        assertThat(points.size()).isLessThan(33);
        double before = points.stream()
                .filter(p -> p.y() == 1)
                .mapToDouble(Point::x)
                .max()
                .orElseThrow();
        assertThat(before).isBetween(0.7123 - 2.0 / 1024, 0.7123);
    }

    @Test
    void whereTheValuesEndIsFoundFirst() {
        List<Point> points = refined(x -> x < 0.6 ? Double.NaN : 1 / x, 14);
        double first = points.stream()
                .filter(p -> !Double.isNaN(p.y()))
                .mapToDouble(Point::x)
                .min()
                .orElseThrow();
        // five of the fourteen places halve 1/8 down to 1/256
        assertThat(first).isBetween(0.6, 0.6 + 1.0 / 256);
    }

    @Test
    void aChangeOfStateIsPlacedThoughTheValuesGoOnStraight() {
        List<Point> points = Refinement.of(x -> new Answer(x, x > 0.437), NINE, 0.01, 33);
        assertThat(points).hasSize(14);
        double off = points.stream()
                .filter(p -> !p.state())
                .mapToDouble(Point::x)
                .max()
                .orElseThrow();
        assertThat(off).isBetween(0.437 - 1.0 / 256, 0.437);
    }

    @Test
    void neverMorePlacesThanAllowedAndAllInOrder() {
        int[] asked = {0};
        List<Point> points = Refinement.of(
                x -> {
                    asked[0]++;
                    return new Answer(Math.sin(40 * x), true);
                },
                NINE,
                1e-6,
                33);
        assertThat(points).hasSize(33);
        assertThat(asked[0]).isEqualTo(33);
        assertThat(points).isSortedAccordingTo((a, b) -> Double.compare(a.x(), b.x()));
    }

    @Test
    void startsOutOfOrderAreRefused() {
        assertThatThrownBy(() -> Refinement.of(x -> new Answer(x, true), new double[] {0, 0}, 0.01, 9))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Refinement.of(x -> new Answer(x, true), NINE, 0.01, 8))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
