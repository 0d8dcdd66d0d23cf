package slowproof.metrology.regression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class PenalisedLeastSquaresTest {
    private static final double[] VALUES = {2.5, -1.8, 0.7, 3.1, -2.2, 1.4};

    // Identity design and penalty: b = y / (1 + weight), n / (1 + weight) parameters in effect.
    @Test
    void shrinkageTowardsZeroAgreesWithItsClosedForm() {
        PenalisedFit fit = PenalisedLeastSquares.withWeight(identity(6), VALUES, identity(6), 3);
        for (int i = 0; i < 6; i++) {
            assertThat(fit.coefficient(i)).isCloseTo(VALUES[i] / 4, within(1e-14));
        }
        assertThat(fit.effectiveParameters()).isCloseTo(1.5, within(1e-13));
        assertThat(fit.weight()).isCloseTo(3, within(1e-14));
        assertThat(fit.size()).isEqualTo(6);
        // penalised sum of squares 3/4 sum y^2 over 6 - 0 degrees of freedom
        double variance = 0.75 * Matrices.sumOfSquares(VALUES) / 6;
        assertThat(fit.residualVariance()).isCloseTo(variance, within(1e-13));
        assertThat(fit.covariance()[2][2]).isCloseTo(variance / 4, within(1e-13));
        assertThat(fit.widenedCovariance()[2][2]).isCloseTo(variance / 4, within(1e-13));
        assertThat(fit.degreesOfFreedom()).isCloseTo(4.5, within(1e-13));
        assertThat(fit.predict(1, 0, 0, 0, 0, 1)).isCloseTo((2.5 + 1.4) / 4, within(1e-14));
        assertThat(fit.predictionUncertainty(1, 0, 0, 0, 0, 1)).isCloseTo(Math.sqrt(variance / 2), within(1e-13));
    }

    // y_i ~ N(0, 1 + 1/weight): the likelihood is largest where 1 + 1/weight is the mean square.
    @Test
    void restrictedLikelihoodFindsTheVarianceRatio() {
        double[] ones = new double[6];
        Arrays.fill(ones, 1);
        PenalisedFit fit = PenalisedLeastSquares.known(identity(6), VALUES, ones, identity(6), SmoothingChoice.REML);
        double meanSquare = Matrices.sumOfSquares(VALUES) / 6;
        assertThat(fit.weight()).isCloseTo(1 / (meanSquare - 1), within(1e-5));
        assertThat(fit.residualVariance()).isEqualTo(1);
        assertThat(fit.degreesOfFreedom()).isInfinite();
    }

    // Estimated risk k^2 S + 2 n (1 - k) with k = weight/(1 + weight) is least at k = n/S.
    @Test
    void knownScatterCrossValidationFindsTheLeastRisk() {
        double[] ones = new double[6];
        Arrays.fill(ones, 1);
        PenalisedFit fit =
                PenalisedLeastSquares.known(identity(6), VALUES, ones, identity(6), SmoothingChoice.CROSS_VALIDATION);
        double k = 6 / Matrices.sumOfSquares(VALUES);
        assertThat(fit.weight()).isCloseTo(k / (1 - k), within(1e-5));
        assertThat(fit.widenedCovariance()).isDeepEqualTo(fit.covariance());
    }

    // Balanced one-way layout as a penalised fit: REML gives the moment estimates, weight = s^2 / s_between^2.
    @Test
    void balancedGroupsGiveTheAnalysisOfVariance() {
        double[][] groups = {{10, 12, 11}, {14, 15, 13}, {9, 8, 10}, {12, 14, 13}};
        double[][] rows = new double[12][5];
        double[] y = new double[12];
        double[][] penalty = new double[4][5];
        double within = 0;
        double between = 0;
        double grand = 0;
        for (int g = 0; g < 4; g++) {
            grand += Arrays.stream(groups[g]).sum() / 12;
        }
        for (int g = 0; g < 4; g++) {
            penalty[g][g + 1] = 1;
            double mean = Arrays.stream(groups[g]).sum() / 3;
            between += 3 * (mean - grand) * (mean - grand) / 3;
            for (int i = 0; i < 3; i++) {
                rows[3 * g + i][0] = 1;
                rows[3 * g + i][g + 1] = 1;
                y[3 * g + i] = groups[g][i];
                within += (groups[g][i] - mean) * (groups[g][i] - mean) / 8;
            }
        }
        PenalisedFit fit = PenalisedLeastSquares.fit(rows, y, penalty, SmoothingChoice.REML);
        assertThat(fit.residualVariance()).isCloseTo(within, within(1e-5));
        assertThat(fit.weight()).isCloseTo(within / ((between - within) / 3), within(1e-4));
        assertThat(fit.coefficient(0)).isCloseTo(grand, within(1e-9));
    }

    @Test
    void straightDataCostNothingHoweverHeavyThePenalty() {
        SplineBasis basis = SplineBasis.evenly(3, 0, 10, 8);
        double[] x = new double[30];
        double[] y = new double[30];
        for (int i = 0; i < 30; i++) {
            x[i] = i / 3.0;
            y[i] = 4 - 0.5 * x[i];
        }
        for (double weight : new double[] {1e-3, 1, 1e6}) {
            PenalisedFit fit = PenalisedLeastSquares.withWeight(basis.rows(x), y, basis.roughness(), weight);
            assertThat(fit.predict(basis.row(7.7))).isCloseTo(4 - 3.85, within(1e-9));
        }
        PenalisedFit heavy = PenalisedLeastSquares.withWeight(basis.rows(x), y, basis.roughness(), 1e12);
        assertThat(heavy.effectiveParameters()).isCloseTo(2, within(1e-4));
        PenalisedFit chosen = PenalisedLeastSquares.fit(basis.rows(x), y, basis.roughness(), SmoothingChoice.REML);
        assertThat(chosen.predict(basis.row(7.7))).isCloseTo(4 - 3.85, within(1e-9));
    }

    @Test
    void bothChoicesRecoverASmoothCurveFromNoise() {
        long seed = 31;
        Random random = new Random(seed);
        SplineBasis basis = SplineBasis.evenly(3, 0, 1, 20);
        double[] x = new double[100];
        double[] y = new double[100];
        for (int i = 0; i < 100; i++) {
            x[i] = i / 99.0;
            y[i] = Math.sin(6 * x[i]) + 0.2 * random.nextGaussian();
        }
        for (SmoothingChoice choice : SmoothingChoice.values()) {
            PenalisedFit fit = PenalisedLeastSquares.fit(basis.rows(x), y, basis.roughness(), choice);
            double squares = 0;
            for (double at : x) {
                double miss = fit.predict(basis.row(at)) - Math.sin(6 * at);
                squares += miss * miss;
            }
            assertThat(Math.sqrt(squares / 100)).as("%s, seed %d", choice, seed).isLessThan(0.1);
            assertThat(Math.sqrt(fit.residualVariance()))
                    .as("%s, seed %d", choice, seed)
                    .isBetween(0.16, 0.24);
            assertThat(fit.effectiveParameters()).isBetween(4.0, 15.0);
        }
        PenalisedFit reml = PenalisedLeastSquares.fit(basis.rows(x), y, basis.roughness(), SmoothingChoice.REML);
        double[] row = basis.row(0.4);
        assertThat(Matrices.quadraticForm(row, reml.widenedCovariance()))
                .isGreaterThan(Matrices.quadraticForm(row, reml.covariance()));
        assertThat(reml.predictionInterval(0.95, row).centre()).isCloseTo(reml.predict(row), within(1e-12));
        assertThat(reml.predictionInterval(0.95, row).width() / 2 / reml.predictionUncertainty(row))
                .isBetween(1.97, 2.0);
    }

    @Test
    void penaltySettlesWhatTheDataLeaveOpen() {
        // three readings, nine coefficients
        SplineBasis basis = SplineBasis.evenly(1, 0, 8, 8);
        double[] x = {0, 4, 8};
        PenalisedFit fit = PenalisedLeastSquares.known(
                basis.rows(x),
                new double[] {0, 1, 0},
                new double[] {0.1, 0.1, 0.1},
                basis.roughness(),
                SmoothingChoice.REML);
        assertThat(fit.predict(basis.row(2))).isBetween(0.0, 1.0);
        // less certain between the readings than at them
        assertThat(fit.predictionUncertainty(basis.row(2))).isGreaterThan(fit.predictionUncertainty(basis.row(4)));
    }

    @Test
    void badArgumentsAreNamed() {
        double[][] rows = {{1, 0}, {0, 1}, {1, 1}};
        double[] y = {1, 2, 3};
        double[][] penalty = {{1, -1}};
        SmoothingChoice reml = SmoothingChoice.REML;
        assertThatThrownBy(() -> PenalisedLeastSquares.withWeight(rows, y, penalty, 0))
                .hasMessageContaining("weight");
        assertThatThrownBy(() -> PenalisedLeastSquares.fit(rows, new double[] {1}, penalty, reml))
                .hasMessageContaining("responses");
        assertThatThrownBy(() -> PenalisedLeastSquares.fit(rows, new double[] {1, 2, Double.NaN}, penalty, reml))
                .hasMessageContaining("NaN");
        assertThatThrownBy(() -> PenalisedLeastSquares.fit(rows, y, new double[][] {{1}}, reml))
                .hasMessageContaining("penalty");
        assertThatThrownBy(() -> PenalisedLeastSquares.fit(rows, y, new double[][] {{1, Double.NaN}}, reml))
                .hasMessageContaining("NaN");
        assertThatThrownBy(() -> PenalisedLeastSquares.fit(rows, y, new double[0][], reml))
                .hasMessageContaining("penalty");
        assertThatThrownBy(() -> PenalisedLeastSquares.fit(rows, y, new double[3][2], reml))
                .hasMessageContaining("more than 2");
        assertThatThrownBy(() -> PenalisedLeastSquares.fit(new double[][] {{1, 0}, {0}, {1, 1}}, y, penalty, reml))
                .hasMessageContaining("entries in each row");
        assertThatThrownBy(() ->
                        PenalisedLeastSquares.fit(new double[][] {{1, 0}, {0, Double.NaN}, {1, 1}}, y, penalty, reml))
                .hasMessageContaining("NaN");
        assertThatThrownBy(() -> PenalisedLeastSquares.fit(new double[][] {{1, 0}}, new double[] {1}, penalty, reml))
                .hasMessageContaining("no scatter");
        assertThatThrownBy(() -> PenalisedLeastSquares.known(rows, y, new double[] {1, 1}, penalty, reml))
                .hasMessageContaining("standard uncertainties");
        assertThatThrownBy(() -> PenalisedLeastSquares.known(rows, y, new double[] {1, 1, 0}, penalty, reml))
                .hasMessageContaining("standard uncertainty");
        assertThatThrownBy(() -> PenalisedLeastSquares.known(
                        new double[][] {{1, 0, 0}},
                        new double[] {1},
                        new double[] {1},
                        new double[][] {{0, 0, 1}},
                        reml))
                .hasMessageContaining("do not determine");
        PenalisedFit fit = PenalisedLeastSquares.withWeight(rows, y, penalty, 1);
        assertThatThrownBy(() -> fit.predictionInterval(1, 1, 0)).hasMessageContaining("probability");
        fit.coefficients()[0] = 99;
        fit.covariance()[0][0] = 99;
        assertThat(fit.coefficients()[0]).isNotEqualTo(99);
        assertThat(fit.covariance()[0][0]).isNotEqualTo(99);
    }

    private static double[][] identity(int size) {
        double[][] result = new double[size][size];
        for (int i = 0; i < size; i++) {
            result[i][i] = 1;
        }
        return result;
    }
}
