package slowproof.metrology.regression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

class LeastSquaresTest {
    private static final double[][] LINE = {{1, 0}, {1, 1}, {1, 2}, {1, 3}};
    private static final double[] Y = {1, 2, 4, 5};

    // By hand: mean x 1.5, mean y 3, Sxx 5, Sxy 7; slope 1.4, intercept 0.9; residuals 0.1, -0.3, 0.3, -0.1;
    // residual sum 0.2, s^2 = 0.1; var(slope) = 0.1/5, var(intercept) = 0.1 (1/4 + 2.25/5), cov = -0.1 * 1.5/5.
    @Test
    void lineOfFourPointsAgreesWithHandCalculation() {
        LinearFit fit = LeastSquares.ordinary(LINE, Y);
        assertThat(fit.size()).isEqualTo(2);
        assertThat(fit.coefficient(0)).isCloseTo(0.9, within(1e-14));
        assertThat(fit.coefficient(1)).isCloseTo(1.4, within(1e-14));
        assertThat(fit.residuals()).containsExactly(new double[] {0.1, -0.3, 0.3, -0.1}, within(1e-14));
        assertThat(fit.residual(1)).isCloseTo(-0.3, within(1e-14));
        assertThat(fit.residualSumOfSquares()).isCloseTo(0.2, within(1e-14));
        assertThat(fit.degreesOfFreedom()).isEqualTo(2);
        assertThat(fit.residualVariance()).isCloseTo(0.1, within(1e-14));
        assertThat(fit.covariance(0, 0)).isCloseTo(0.07, within(1e-14));
        assertThat(fit.covariance(1, 1)).isCloseTo(0.02, within(1e-14));
        assertThat(fit.covariance(0, 1)).isCloseTo(-0.03, within(1e-14));
        assertThat(fit.covariance()[1][0]).isCloseTo(-0.03, within(1e-14));
        assertThat(fit.standardUncertainty(1)).isCloseTo(Math.sqrt(0.02), within(1e-14));
        assertThat(fit.scaleKnown()).isFalse();
        assertThat(fit.aboutMean().explained()).isCloseTo(9.8, within(1e-13));
        assertThat(fit.aboutMean().f()).isCloseTo(98, within(1e-11));
        assertThat(fit.aboutMean().explainedShare()).isCloseTo(0.98, within(1e-14));
        assertThat(fit.aboutZero().explained()).isCloseTo(45.8, within(1e-13));
        // F(1, n) is the square of Student's t(n)
        assertThat(fit.aboutMean().pValue()).isCloseTo(2 * Distributions.studentCdf(-Math.sqrt(98), 2), within(1e-12));
    }

    @Test
    void predictionCarriesItsUncertainty() {
        LinearFit fit = LeastSquares.ordinary(LINE, Y);
        assertThat(fit.predict(1, 2)).isCloseTo(3.7, within(1e-14));
        // 0.1 (1/4 + 0.25/5)
        assertThat(fit.predictionUncertainty(1, 2)).isCloseTo(Math.sqrt(0.03), within(1e-14));
        Interval interval = fit.predictionInterval(0.95, 1, 2);
        // Student's t at 97.5 % with 2 degrees of freedom: sqrt(2 * 0.95^2 / (1 - 0.95^2)) = 4.3027
        assertThat(interval.width() / 2).isCloseTo(Math.sqrt(2 * 0.9025 / 0.0975) * Math.sqrt(0.03), within(1e-12));
        assertThat(interval.centre()).isCloseTo(3.7, within(1e-13));
        assertThat(fit.interval(1, 0.95).centre()).isCloseTo(1.4, within(1e-13));
    }

    @Test
    void knownUncertaintiesGiveTheCovarianceWithoutTheResiduals() {
        LinearFit fit = LeastSquares.known(LINE, Y, new double[] {0.5, 0.5, 0.5, 0.5});
        assertThat(fit.scaleKnown()).isTrue();
        assertThat(fit.covariance(1, 1)).isCloseTo(0.25 / 5, within(1e-14));
        assertThat(fit.residualSumOfSquares()).isCloseTo(0.8, within(1e-13));
        assertThat(fit.residual(1)).isCloseTo(-0.3, within(1e-14));
        assertThat(fit.interval(1, 0.95).width() / 2).isCloseTo(1.959963984540054 * Math.sqrt(0.05), within(1e-12));
        LinearFit rescaled = fit.rescaled();
        assertThat(rescaled.scaleKnown()).isFalse();
        assertThat(rescaled.covariance(1, 1)).isCloseTo(0.02, within(1e-14));
    }

    @Test
    void weightTwoIsTheSameAsReadingTwice() {
        LinearFit twice =
                LeastSquares.ordinary(new double[][] {{1, 0}, {1, 1}, {1, 1}, {1, 3}}, new double[] {1, 2, 2, 5});
        LinearFit weighted = LeastSquares.weighted(
                new double[][] {{1, 0}, {1, 1}, {1, 3}}, new double[] {1, 2, 5}, new double[] {1, 2, 1});
        assertThat(weighted.coefficients()).containsExactly(twice.coefficients(), within(1e-14));
        assertThat(weighted.residualSumOfSquares()).isCloseTo(twice.residualSumOfSquares(), within(1e-14));
        assertThat(weighted.aboutMean().explained()).isCloseTo(twice.aboutMean().explained(), within(1e-13));
    }

    @Test
    void commonFactorOfTheWeightsChangesNothing() {
        double[] weights = {1, 2, 3, 4};
        double[] larger = {10, 20, 30, 40};
        LinearFit one = LeastSquares.weighted(LINE, Y, weights);
        LinearFit ten = LeastSquares.weighted(LINE, Y, larger);
        assertThat(ten.coefficients()).containsExactly(one.coefficients(), within(1e-13));
        assertThat(ten.standardUncertainty(1)).isCloseTo(one.standardUncertainty(1), within(1e-14));
    }

    @Test
    void diagonalCovarianceGivesTheWeightedFit() {
        double[] u = {0.1, 0.2, 0.3, 0.4};
        double[][] covariance = new double[4][4];
        for (int i = 0; i < 4; i++) {
            covariance[i][i] = u[i] * u[i];
        }
        LinearFit known = LeastSquares.known(LINE, Y, u);
        LinearFit general = LeastSquares.generalised(LINE, Y, covariance);
        assertThat(general.coefficients()).containsExactly(known.coefficients(), within(1e-13));
        assertThat(general.covariance(0, 1)).isCloseTo(known.covariance(0, 1), within(1e-15));
        assertThat(general.residuals()).containsExactly(known.residuals(), within(1e-13));
        assertThat(general.residualSumOfSquares()).isCloseTo(known.residualSumOfSquares(), within(1e-12));
        assertThat(general.aboutMean().explained()).isCloseTo(known.aboutMean().explained(), within(1e-11));
        assertThat(general.scaleKnown()).isTrue();
    }

    // Two readings with variance 1 and covariance 0.5: their mean has variance (1 + 1 + 2 * 0.5)/4.
    @Test
    void correlatedReadingsAverageLess() {
        LinearFit fit = LeastSquares.generalised(
                new double[][] {{1}, {1}}, new double[] {2, 4}, new double[][] {{1, 0.5}, {0.5, 1}});
        assertThat(fit.coefficient(0)).isCloseTo(3, within(1e-14));
        assertThat(fit.covariance(0, 0)).isCloseTo(0.75, within(1e-14));
        // (2 - 4)^2 / (1 + 1 - 2 * 0.5)
        assertThat(fit.residualSumOfSquares()).isCloseTo(4, within(1e-13));
    }

    @Test
    void unitsOfTheColumnsDoNotMatter() {
        long seed = 11;
        Random random = new Random(seed);
        for (int round = 0; round < 50; round++) {
            double[][] rows = new double[8][3];
            double[][] micro = new double[8][3];
            double[] y = new double[8];
            for (int i = 0; i < 8; i++) {
                for (int j = 0; j < 3; j++) {
                    rows[i][j] = random.nextGaussian();
                    micro[i][j] = rows[i][j] * (j == 1 ? 1e9 : 1);
                }
                y[i] = random.nextGaussian();
            }
            LinearFit plain = LeastSquares.ordinary(rows, y);
            LinearFit scaled = LeastSquares.ordinary(micro, y);
            assertThat(scaled.coefficient(1) * 1e9)
                    .as("seed %d, round %d", seed, round)
                    .isCloseTo(plain.coefficient(1), within(1e-10 * Math.abs(plain.coefficient(1)) + 1e-13));
            assertThat(scaled.standardUncertainty(1) * 1e9)
                    .isCloseTo(plain.standardUncertainty(1), within(1e-10 * plain.standardUncertainty(1)));
            assertThat(scaled.covariance(0, 2)).isCloseTo(plain.covariance(0, 2), within(1e-9));
        }
    }

    @Test
    void exactFitLeavesNoScatterToEstimate() {
        LinearFit fit = LeastSquares.ordinary(new double[][] {{1, 0}, {1, 1}}, new double[] {3, 5});
        assertThat(fit.coefficient(1)).isCloseTo(2, within(1e-14));
        assertThat(fit.degreesOfFreedom()).isZero();
        assertThatThrownBy(fit::residualVariance)
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("cannot be estimated");
        assertThatThrownBy(() -> fit.covariance(0, 0)).isInstanceOf(IllegalStateException.class);
        assertThatThrownBy(() -> fit.aboutMean().pValue()).isInstanceOf(IllegalStateException.class);
    }

    @Test
    void pValueOfNothingExplainedIsOneAndOfEverythingIsZero() {
        assertThat(new VarianceSplit(0, 1, 3, 5).pValue()).isEqualTo(1);
        assertThat(new VarianceSplit(2, 1, 0, 5).pValue()).isZero();
        assertThatThrownBy(() -> new VarianceSplit(2, 0, 1, 5).pValue()).isInstanceOf(IllegalStateException.class);
    }

    @Test
    void dependentColumnsAreRefused() {
        double[][] rows = {{1, 2}, {2, 4}, {3, 6}};
        assertThatThrownBy(() -> LeastSquares.ordinary(rows, new double[] {1, 2, 3}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("linearly dependent");
    }

    @Test
    void badArgumentsAreNamed() {
        double[] three = {1, 2, 3};
        assertThatThrownBy(() -> LeastSquares.ordinary(LINE, three)).hasMessageContaining("expected 4 responses");
        assertThatThrownBy(() -> LeastSquares.ordinary(new double[][] {{1, 2}}, new double[] {1}))
                .hasMessageContaining("1 rows cannot determine 2");
        assertThatThrownBy(() -> LeastSquares.ordinary(new double[][] {{1}, {1, 2}}, new double[] {1, 2}))
                .hasMessageContaining("entries in each row");
        assertThatThrownBy(() -> LeastSquares.ordinary(new double[0][], new double[0]))
                .hasMessageContaining("at least one row");
        assertThatThrownBy(() -> LeastSquares.ordinary(LINE, new double[] {1, 2, Double.NaN, 4}))
                .hasMessageContaining("NaN");
        assertThatThrownBy(() -> LeastSquares.ordinary(new double[][] {{Double.NaN}, {1}}, new double[] {1, 2}))
                .hasMessageContaining("NaN");
        assertThatThrownBy(() -> LeastSquares.weighted(LINE, Y, three)).hasMessageContaining("weights");
        assertThatThrownBy(() -> LeastSquares.weighted(LINE, Y, new double[] {1, 1, 0, 1}))
                .hasMessageContaining("weight");
        assertThatThrownBy(() -> LeastSquares.known(LINE, Y, three)).hasMessageContaining("standard uncertainties");
        assertThatThrownBy(() -> LeastSquares.known(LINE, Y, new double[] {1, 1, -1, 1}))
                .hasMessageContaining("standard uncertainty");
        assertThatThrownBy(() -> LeastSquares.generalised(LINE, Y, new double[3][3]))
                .hasMessageContaining("rows of the covariance");
        assertThatThrownBy(() -> LeastSquares.generalised(LINE, Y, new double[4][3]))
                .hasMessageContaining("columns of the covariance");
        assertThatThrownBy(() -> LeastSquares.generalised(LINE, Y, new double[4][4]))
                .hasMessageContaining("positive definite");
        double[][] skew = {{1, 0.5}, {0.4, 1}};
        assertThatThrownBy(() -> LeastSquares.generalised(new double[][] {{1}, {1}}, new double[] {1, 2}, skew))
                .hasMessageContaining("symmetric");
        assertThatThrownBy(() -> LeastSquares.polynomial(three, three, -1)).hasMessageContaining("degree");
        assertThatThrownBy(() -> LeastSquares.ordinary(LINE, Y).interval(0, 95)).hasMessageContaining("0.95");
        assertThatThrownBy(() -> LeastSquares.ordinary(LINE, Y).predict(1)).hasMessageContaining("expected 2 numbers");
    }

    @Test
    void polynomialOfDegreeZeroIsTheMean() {
        LinearFit fit = LeastSquares.polynomial(new double[] {1, 2, 3}, new double[] {4, 5, 9}, 0);
        assertThat(fit.coefficient(0)).isCloseTo(6, within(1e-14));
        assertThat(fit.aboutMean().explainedDegreesOfFreedom()).isZero();
        assertThat(fit.aboutMean().explained()).isCloseTo(0, within(1e-25));
    }

    @Test
    void resultsAreCopies() {
        LinearFit fit = LeastSquares.ordinary(LINE, Y);
        fit.coefficients()[0] = 99;
        fit.residuals()[0] = 99;
        fit.covariance()[0][0] = 99;
        assertThat(fit.coefficient(0)).isCloseTo(0.9, within(1e-14));
        assertThat(fit.residual(0)).isCloseTo(0.1, within(1e-14));
        assertThat(fit.covariance(0, 0)).isCloseTo(0.07, within(1e-14));
    }
}
