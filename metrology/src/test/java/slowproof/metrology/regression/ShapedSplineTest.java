package slowproof.metrology.regression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Interval;

class ShapedSplineTest {
    private static final SplineBasis BASIS = SplineBasis.evenly(3, 0, 1, 8);

    @Test
    void nonNegativeSolutionSatisfiesItsConditions() {
        long seed = 41;
        Random random = new Random(seed);
        for (int round = 0; round < 100; round++) {
            double[][] rows = new double[7][4];
            double[] b = new double[7];
            for (int i = 0; i < 7; i++) {
                b[i] = random.nextGaussian();
                for (int j = 0; j < 4; j++) {
                    rows[i][j] = random.nextGaussian();
                }
            }
            double[] x = NonNegativeLeastSquares.solve(rows, b);
            for (int j = 0; j < 4; j++) {
                double slope = 0;
                for (int i = 0; i < 7; i++) {
                    slope += rows[i][j] * (b[i] - Matrices.dot(rows[i], x));
                }
                assertThat(x[j]).as("seed %d, round %d", seed, round).isNotNegative();
                if (x[j] > 0) {
                    assertThat(slope).isCloseTo(0, within(1e-10));
                } else {
                    assertThat(slope).isLessThan(1e-10);
                }
            }
        }
    }

    @Test
    void unitOfTheRightHandSideScalesTheSolution() {
        double[][] rows = {{1, -1, 0.5}, {0.3, 2, -1}, {-0.7, 0.4, 1}, {0.2, -0.1, 0.3}};
        double[] b = {1, -2, 0.5, 3};
        double[] x = NonNegativeLeastSquares.solve(rows, b);
        for (double unit : new double[] {1e-12, 1e12}) {
            double[] scaled = new double[4];
            for (int i = 0; i < 4; i++) {
                scaled[i] = unit * b[i];
            }
            double[] found = NonNegativeLeastSquares.solve(rows, scaled);
            for (int j = 0; j < 3; j++) {
                assertThat(found[j] / unit).as("unit %s", unit).isCloseTo(x[j], within(1e-12));
            }
        }
        assertThat(x).contains(0.0);
    }

    @Test
    void shortestVectorUnderInequalities() {
        // at least 1 in the sum of two coordinates: the point (1/2, 1/2); and at least 2 in the first: (2, 0)
        assertThat(NonNegativeLeastSquares.shortest(new double[][] {{1, 1}}, new double[] {1}))
                .containsExactly(new double[] {0.5, 0.5}, within(1e-12));
        assertThat(NonNegativeLeastSquares.shortest(new double[][] {{1, 1}, {1, 0}}, new double[] {1, 2}))
                .containsExactly(new double[] {2, 0}, within(1e-12));
        assertThat(NonNegativeLeastSquares.shortest(new double[][] {{1, 1}}, new double[] {-1}))
                .containsExactly(new double[] {0, 0}, within(1e-12));
        assertThatThrownBy(() ->
                        NonNegativeLeastSquares.shortest(new double[][] {{1, 0}, {-1, 0}}, new double[] {1, 1}))
                .isInstanceOf(IllegalStateException.class);
    }

    @Test
    void curveKeepsEveryShapeItIsHeldTo() {
        long seed = 43;
        Random random = new Random(seed);
        double[] x = new double[40];
        double[] y = new double[40];
        for (int i = 0; i < 40; i++) {
            x[i] = i / 39.0;
            y[i] = random.nextGaussian();
        }
        for (Set<Shape> shapes : Set.of(
                Set.of(Shape.INCREASING),
                Set.of(Shape.DECREASING),
                Set.of(Shape.CONVEX),
                Set.of(Shape.CONCAVE),
                Set.of(Shape.DECREASING, Shape.CONVEX))) {
            ShapedSpline fit = ShapedSpline.fit(BASIS, shapes, x, y, SmoothingChoice.REML, 200, 1);
            for (int k = 1; k < 60; k++) {
                double before = fit.value((k - 1) / 60.0);
                double here = fit.value(k / 60.0);
                double after = fit.value((k + 1) / 60.0);
                String what = shapes + ", seed " + seed + ", place " + k;
                if (shapes.contains(Shape.INCREASING)) {
                    assertThat(here).as(what).isGreaterThanOrEqualTo(before - 1e-9);
                }
                if (shapes.contains(Shape.DECREASING)) {
                    assertThat(here).as(what).isLessThanOrEqualTo(before + 1e-9);
                }
                if (shapes.contains(Shape.CONVEX)) {
                    assertThat(before + after - 2 * here).as(what).isGreaterThanOrEqualTo(-1e-9);
                }
                if (shapes.contains(Shape.CONCAVE)) {
                    assertThat(before + after - 2 * here).as(what).isLessThanOrEqualTo(1e-9);
                }
            }
        }
    }

    @Test
    void shapeThatTheDataHaveAnywayChangesNothing() {
        double[] x = new double[40];
        double[] y = new double[40];
        Random random = new Random(44);
        for (int i = 0; i < 40; i++) {
            x[i] = i / 39.0;
            y[i] = 5 * x[i] + 0.01 * random.nextGaussian();
        }
        PenalisedFit free = PenalisedLeastSquares.fit(BASIS.rows(x), y, BASIS.roughness(), SmoothingChoice.REML);
        ShapedSpline shaped = ShapedSpline.fit(BASIS, Set.of(Shape.INCREASING), x, y, SmoothingChoice.REML, 4000, 1);
        double[] row = BASIS.row(0.37);
        assertThat(shaped.value(0.37)).isCloseTo(free.predict(row), within(1e-9));
        assertThat(shaped.coefficient(3)).isCloseTo(free.coefficient(3), within(1e-9));
        // far from the edge of the shape the band is that of the free fit
        assertThat(shaped.band(0.95, 0.37).width()
                        / free.predictionInterval(0.95, row).width())
                .isBetween(0.93, 1.07);
        assertThat(shaped.band(0.95, 0.37).centre()).isCloseTo(free.predict(row), within(1e-3));
    }

    @Test
    void shapeNarrowsTheBandAndSeedRepeatsIt() {
        long seed = 45;
        Random random = new Random(seed);
        double[] x = new double[30];
        double[] y = new double[30];
        for (int i = 0; i < 30; i++) {
            x[i] = i / 29.0;
            y[i] = Math.exp(-6 * x[i]) + 0.1 * random.nextGaussian();
        }
        ShapedSpline fit =
                ShapedSpline.fit(BASIS, Set.of(Shape.DECREASING, Shape.CONVEX), x, y, SmoothingChoice.REML, 1000, 3);
        PenalisedFit free = PenalisedLeastSquares.fit(BASIS.rows(x), y, BASIS.roughness(), SmoothingChoice.REML);
        double shapedWidth = 0;
        double freeWidth = 0;
        for (int k = 0; k <= 20; k++) {
            Interval band = fit.band(0.95, k / 20.0);
            shapedWidth += band.width();
            freeWidth += free.predictionInterval(0.95, BASIS.row(k / 20.0)).width();
        }
        assertThat(shapedWidth).as("seed %d", seed).isLessThan(freeWidth);
        assertThat(fit.band(0.5, 0.5).width()).isLessThan(fit.band(0.95, 0.5).width());
        ShapedSpline again =
                ShapedSpline.fit(BASIS, Set.of(Shape.DECREASING, Shape.CONVEX), x, y, SmoothingChoice.REML, 1000, 3);
        assertThat(again.band(0.95, 0.5)).isEqualTo(fit.band(0.95, 0.5));
    }

    @Test
    void contradictionsAreRefused() {
        double[] x = {0, 0.5, 1};
        assertThatThrownBy(() -> fit(x, Set.of())).hasMessageContaining("shapes");
        assertThatThrownBy(() -> fit(x, Set.of(Shape.INCREASING, Shape.DECREASING)))
                .hasMessageContaining("contradict");
        assertThatThrownBy(() -> fit(x, Set.of(Shape.CONVEX, Shape.CONCAVE))).hasMessageContaining("contradict");
        assertThatThrownBy(() -> ShapedSpline.fit(BASIS, Set.of(Shape.CONVEX), x, x, SmoothingChoice.REML, 99, 1))
                .hasMessageContaining("100 draws");
        ShapedSpline line = fit(x, Set.of(Shape.INCREASING));
        assertThatThrownBy(() -> line.band(1, 0.5)).hasMessageContaining("probability");
        assertThatThrownBy(() -> line.value(2)).hasMessageContaining("outside");
    }

    private static ShapedSpline fit(double[] x, Set<Shape> shapes) {
        return ShapedSpline.fit(BASIS, shapes, x, x, SmoothingChoice.REML, 100, 1);
    }
}
