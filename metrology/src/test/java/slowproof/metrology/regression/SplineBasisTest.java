package slowproof.metrology.regression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import slowproof.metrology.Interval;

class SplineBasisTest {
    @Test
    void functionsSumToOneAndReproduceStraightLines() {
        for (int degree = 1; degree <= 5; degree++) {
            SplineBasis basis = SplineBasis.onKnots(degree, 0, 0.5, 2, 3, 7);
            assertThat(basis.size()).isEqualTo(4 + degree);
            assertThat(basis.range()).isEqualTo(new Interval(0, 7));
            double[] places = basis.places();
            for (double x = 0; x <= 7; x += 0.125) {
                double[] row = basis.row(x);
                double sum = 0;
                for (double value : row) {
                    assertThat(value).isNotNegative();
                    sum += value;
                }
                assertThat(sum).as("degree %d, x = %s", degree, x).isCloseTo(1, within(1e-14));
                assertThat(Matrices.dot(row, places)).isCloseTo(x, within(1e-13));
            }
        }
    }

    @Test
    void degreeOneInterpolatesBetweenKnots() {
        SplineBasis hats = SplineBasis.onKnots(1, 0, 1, 3);
        assertThat(hats.row(0)).containsExactly(1, 0, 0);
        assertThat(hats.row(1)).containsExactly(0, 1, 0);
        assertThat(hats.row(2)).containsExactly(0, 0.5, 0.5);
        assertThat(hats.row(3)).containsExactly(0, 0, 1);
        assertThat(hats.places()).containsExactly(0, 1, 3);
        assertThat(hats.rows(new double[] {0, 2})[1]).containsExactly(0, 0.5, 0.5);
    }

    // Cubic B-spline on equal knots at its centre: 1/6, 2/3, 1/6.
    @Test
    void cubicFunctionsHaveTheirKnownValuesAtKnots() {
        SplineBasis basis = SplineBasis.evenly(3, 0, 8, 8);
        double[] row = basis.row(4);
        assertThat(row[4]).isCloseTo(1.0 / 6, within(1e-15));
        assertThat(row[5]).isCloseTo(2.0 / 3, within(1e-15));
        assertThat(row[6]).isCloseTo(1.0 / 6, within(1e-15));
    }

    @Test
    void straightLinesHaveNoRoughnessAndConstantSlope() {
        SplineBasis basis = SplineBasis.onKnots(3, 0, 1, 1.5, 4, 9);
        double[] places = basis.places();
        double[] line = new double[places.length];
        double[] parabola = new double[places.length];
        for (int i = 0; i < line.length; i++) {
            line[i] = 2 - 3 * places[i];
            parabola[i] = places[i] * places[i];
        }
        for (double[] row : basis.roughness()) {
            assertThat(Matrices.dot(row, line)).isCloseTo(0, within(1e-12));
        }
        for (double[] row : basis.slopes()) {
            assertThat(Matrices.dot(row, line)).isCloseTo(-3, within(1e-12));
        }
        for (double[] row : basis.bends()) {
            assertThat(Matrices.dot(row, parabola)).isPositive();
        }
    }

    // Hat functions on equal knots: the parabola x^2 has second derivative 2, squared and integrated 4 per length;
    // the ends of the range have no bend.
    @Test
    void roughnessApproximatesTheIntegralOfTheSquaredSecondDerivative() {
        SplineBasis basis = SplineBasis.evenly(1, 0, 10, 100);
        double[] parabola = new double[101];
        for (int i = 0; i <= 100; i++) {
            parabola[i] = (i / 10.0) * (i / 10.0);
        }
        double sum = 0;
        for (double[] row : basis.roughness()) {
            double value = Matrices.dot(row, parabola);
            sum += value * value;
        }
        assertThat(sum).isCloseTo(4 * 9.9, within(1e-8));
    }

    @Test
    void badArgumentsAreNamed() {
        assertThatThrownBy(() -> SplineBasis.onKnots(0, 0, 1)).hasMessageContaining("degree");
        assertThatThrownBy(() -> SplineBasis.onKnots(6, 0, 1)).hasMessageContaining("degree");
        assertThatThrownBy(() -> SplineBasis.onKnots(1, 0)).hasMessageContaining("two knots");
        assertThatThrownBy(() -> SplineBasis.onKnots(1, 0, 0)).hasMessageContaining("increase");
        assertThatThrownBy(() -> SplineBasis.onKnots(1, 0, Double.NaN)).hasMessageContaining("finite");
        assertThatThrownBy(() -> SplineBasis.evenly(1, 0, 1, 0)).hasMessageContaining("gap");
        SplineBasis basis = SplineBasis.evenly(1, 0, 1, 1);
        assertThatThrownBy(() -> basis.row(1.01)).hasMessageContaining("1.01");
        assertThatThrownBy(() -> basis.row(-0.01)).hasMessageContaining("-0.01");
        assertThatThrownBy(() -> basis.row(Double.NaN)).hasMessageContaining("NaN");
    }
}
