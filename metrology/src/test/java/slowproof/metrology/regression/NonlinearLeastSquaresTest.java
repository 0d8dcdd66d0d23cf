package slowproof.metrology.regression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import slowproof.metrology.reference.Agreement;
import slowproof.metrology.reference.ReferenceCases;

class NonlinearLeastSquaresTest {
    private static final CurveModel LINE = (b, x) -> b[0].add(b[1].multiply(x[0]));
    private static final double[][] X = {{0}, {1}, {2}, {3}};
    private static final double[] Y = {1, 2, 4, 5};
    private static final List<double[]> START = List.of(new double[] {10, -10});

    @TestFactory
    Stream<DynamicTest> everyPublishedStartAloneReachesTheCertifiedMinimum() {
        return ReferenceCases.all().stream()
                .filter(reference -> reference.kind().equals("strd-nonlinear"))
                .flatMap(reference -> Stream.of("start1", "start2")
                        .map(start -> dynamicTest(reference.id() + " " + start, () -> {
                            NonlinearFit fit = StrdNonlinearCases.fit(reference, List.of(reference.numbers(start)));
                            assertThat(fit.converged()).isTrue();
                            // certified to 11 digits; 6 are asked for, 9 are held as found
                            StrdNonlinearCases.values(fit)
                                    .forEach((name, value) -> reference.checkDigits(name, value, 9));
                        })));
    }

    @Test
    void straightLineIsFittedAsByLinearLeastSquares() {
        NonlinearFit fit = NonlinearLeastSquares.fit(LINE, X, Y, START);
        assertThat(fit.parameters()).containsExactly(new double[] {0.9, 1.4}, within(1e-12));
        assertThat(fit.parameter(1)).isCloseTo(1.4, within(1e-12));
        assertThat(fit.covariance(0, 1)).isCloseTo(-0.03, within(1e-12));
        assertThat(fit.covariance()[1][1]).isCloseTo(0.02, within(1e-12));
        assertThat(fit.standardUncertainty(1)).isCloseTo(Math.sqrt(0.02), within(1e-12));
        assertThat(fit.residualSumOfSquares()).isCloseTo(0.2, within(1e-12));
        assertThat(fit.residualVariance()).isCloseTo(0.1, within(1e-12));
        assertThat(fit.degreesOfFreedom()).isEqualTo(2);
        assertThat(fit.residual(1)).isCloseTo(-0.3, within(1e-12));
        assertThat(fit.converged()).isTrue();
        // Student's t at 97.5 % with 2 degrees of freedom
        assertThat(fit.interval(1, 0.95).width() / 2)
                .isCloseTo(Math.sqrt(2 * 0.9025 / 0.0975) * Math.sqrt(0.02), within(1e-10));
        assertThat(fit.interval(1, 0.95).centre()).isCloseTo(1.4, within(1e-10));
    }

    @Test
    void knownUncertaintiesWeighAndScale() {
        double[] u = {0.1, 0.2, 0.3, 0.4};
        NonlinearFit fit = NonlinearLeastSquares.known(LINE, X, Y, u, START);
        LinearFit linear = LeastSquares.known(new double[][] {{1, 0}, {1, 1}, {1, 2}, {1, 3}}, Y, u);
        assertThat(fit.parameters()).containsExactly(linear.coefficients(), within(1e-11));
        assertThat(fit.covariance(0, 1)).isCloseTo(linear.covariance(0, 1), within(1e-13));
        assertThat(fit.residual(2)).isCloseTo(linear.residual(2), within(1e-11));
        assertThat(fit.interval(0, 0.95).width())
                .isCloseTo(linear.interval(0, 0.95).width(), within(1e-11));
    }

    @Test
    void theBetterOfTwoMinimaIsKept() {
        // (b^2 - 1)^2 + 0.01 (b - 1)^2 has minima near -1 and at 1; the one at 1 is deeper
        CurveModel twoMinima = (b, x) -> x[0] == 0 ? b[0].multiply(b[0]) : b[0].multiply(0.1);
        double[][] x = {{0}, {1}};
        double[] y = {1, 0.1};
        double[] left = {-1.2};
        double[] right = {1.3};
        assertThat(NonlinearLeastSquares.fit(twoMinima, x, y, List.of(left)).parameter(0))
                .isCloseTo(-0.995, within(0.01));
        assertThat(NonlinearLeastSquares.fit(twoMinima, x, y, List.of(left, right))
                        .parameter(0))
                .isCloseTo(1, within(1e-9));
        assertThat(NonlinearLeastSquares.fit(twoMinima, x, y, List.of(right, left))
                        .parameter(0))
                .isCloseTo(1, within(1e-9));
    }

    @Test
    void exactDataConverge() {
        NonlinearFit fit = NonlinearLeastSquares.fit(LINE, X, new double[] {1, 3, 5, 7}, START);
        assertThat(fit.converged()).isTrue();
        assertThat(Agreement.digits(fit.parameter(1), 2)).isGreaterThan(13);
    }

    @Test
    void searchTurnsBackFromWhereTheCurveDoesNotExist() {
        // log(b) does not exist for b <= 0; the minimum is at b = exp(-3)
        CurveModel model = (b, x) -> b[0].log().multiply(x[0]);
        NonlinearFit fit = NonlinearLeastSquares.fit(
                model, new double[][] {{1}, {2}}, new double[] {-3.1, -5.9}, List.of(new double[] {2.5}));
        assertThat(fit.parameter(0)).isCloseTo(Math.exp(-(3.1 + 2 * 5.9) / 5), within(1e-9));
        assertThat(fit.converged()).isTrue();
    }

    // |b| cannot reach -1; at the best point, b = 0, the slope does not vanish but turns over
    @Test
    void searchThatStallsAtAKinkSaysSo() {
        CurveModel kinked = (b, x) -> b[0].abs();
        NonlinearFit fit = NonlinearLeastSquares.fit(
                kinked, new double[][] {{0}, {1}}, new double[] {-1, -1.2}, List.of(new double[] {0.7}));
        assertThat(fit.parameter(0)).isCloseTo(0, within(1e-3));
        assertThat(fit.converged()).isFalse();
    }

    @Test
    void scaleOfTheResponsesDoesNotDecideWhetherItConverged() {
        double[] tiny = {1e-9, 2e-9, 4e-9, 5e-9};
        assertThat(NonlinearLeastSquares.fit(LINE, X, tiny, START).converged()).isTrue();
        assertThat(NonlinearLeastSquares.fit(LINE, X, tiny, START).parameter(1)).isCloseTo(1.4e-9, within(1e-20));
    }

    @Test
    void parametersThatCannotBeToldApartAreRefused() {
        CurveModel flat = (b, x) -> b[0].multiply(0).add(b[1]).add(b[0]);
        assertThatThrownBy(() ->
                        NonlinearLeastSquares.fit(flat, new double[][] {{1}, {2}, {3}}, new double[] {1, 2, 3}, START))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("do not tell the parameters apart");
    }

    @Test
    void badArgumentsAreNamed() {
        assertThatThrownBy(() -> NonlinearLeastSquares.fit(LINE, X, Y, List.of()))
                .hasMessageContaining("starting point");
        assertThatThrownBy(() -> NonlinearLeastSquares.fit(LINE, X, new double[] {1}, START))
                .hasMessageContaining("points");
        assertThatThrownBy(() -> NonlinearLeastSquares.fit(LINE, X, Y, List.of(new double[] {Double.NaN, 1})))
                .hasMessageContaining("NaN");
        assertThatThrownBy(() -> NonlinearLeastSquares.fit(LINE, new double[][] {{1}, {2}}, new double[] {1, 2}, START))
                .hasMessageContaining("no degree of freedom");
        assertThatThrownBy(() -> NonlinearLeastSquares.fit(LINE, X, new double[] {1, 2, 3, Double.NaN}, START))
                .hasMessageContaining("NaN");
        assertThatThrownBy(() -> NonlinearLeastSquares.known(LINE, X, Y, new double[] {1}, START))
                .hasMessageContaining("standard uncertainties");
        assertThatThrownBy(() -> NonlinearLeastSquares.known(LINE, X, Y, new double[] {1, 1, 1, 0}, START))
                .hasMessageContaining("standard uncertainty");
        CurveModel nowhere = (b, x) -> b[0].multiply(Double.NaN);
        assertThatThrownBy(() -> NonlinearLeastSquares.fit(nowhere, X, Y, List.of(new double[] {1})))
                .hasMessageContaining("cannot be evaluated");
    }
}
