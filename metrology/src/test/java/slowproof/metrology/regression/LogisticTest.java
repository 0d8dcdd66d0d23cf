package slowproof.metrology.regression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Interval;

class LogisticTest {
    // Two groups: the fit is the logit of each group's share, variances 1/yes + 1/no.
    @Test
    void twoGroupsGiveTheLogitsOfTheirShares() {
        LogisticFit fit = Logistic.maximumLikelihood(groups(4, 6, 7, 3), outcomes(4, 6, 7, 3));
        assertThat(fit.coefficient(0)).isCloseTo(Math.log(4.0 / 6), within(1e-10));
        assertThat(fit.coefficient(1)).isCloseTo(Math.log(7.0 / 3) - Math.log(4.0 / 6), within(1e-10));
        assertThat(fit.covariance(0, 0)).isCloseTo(1.0 / 4 + 1.0 / 6, within(1e-10));
        assertThat(fit.covariance(1, 1)).isCloseTo(1.0 / 4 + 1.0 / 6 + 1.0 / 7 + 1.0 / 3, within(1e-10));
        assertThat(fit.covariance(0, 1)).isCloseTo(-1.0 / 4 - 1.0 / 6, within(1e-10));
        assertThat(fit.probability(1, 1)).isCloseTo(0.7, within(1e-10));
        assertThat(fit.logLikelihood())
                .isCloseTo(
                        4 * Math.log(0.4) + 6 * Math.log(0.6) + 7 * Math.log(0.7) + 3 * Math.log(0.3), within(1e-10));
        assertThat(fit.biasReduced()).isFalse();
    }

    // In a saturated table the bias-reduced fit adds one half to every cell (Firth 1993, from memory).
    @Test
    void biasReducedFitOfTwoGroupsAddsOneHalfToEveryCell() {
        LogisticFit fit = Logistic.firth(groups(4, 6, 7, 3), outcomes(4, 6, 7, 3));
        assertThat(fit.coefficient(0)).isCloseTo(Math.log(4.5 / 6.5), within(1e-9));
        assertThat(fit.coefficient(1)).isCloseTo(Math.log(7.5 / 3.5) - Math.log(4.5 / 6.5), within(1e-9));
        assertThat(fit.biasReduced()).isTrue();
        LogisticFit allYes = Logistic.firth(groups(5, 0, 0, 5), outcomes(5, 0, 0, 5));
        assertThat(allYes.probability(1, 0)).isCloseTo(5.5 / 6, within(1e-9));
        assertThat(allYes.probability(1, 1)).isCloseTo(0.5 / 6, within(1e-9));
    }

    @Test
    void biasReducedShareOfOneGroupAddsOneHalfEachWay() {
        double[][] rows = new double[20][];
        Arrays.setAll(rows, i -> new double[] {1});
        boolean[] none = new boolean[20];
        LogisticFit fit = Logistic.firth(rows, none);
        assertThat(fit.probability(1)).isCloseTo(0.5 / 21, within(1e-10));
        assertThat(Logistic.separated(rows, none)).isTrue();
    }

    @Test
    void slopeOfTheLikelihoodIsZeroAtTheFit() {
        long seed = 21;
        Random random = new Random(seed);
        double[][] rows = new double[60][];
        boolean[] yes = new boolean[60];
        for (int i = 0; i < 60; i++) {
            double x = 4 * random.nextDouble() - 2;
            rows[i] = new double[] {1, x, x * x};
            yes[i] = random.nextDouble() < 1 / (1 + Math.exp(-(0.3 + 1.2 * x)));
        }
        LogisticFit fit = Logistic.maximumLikelihood(rows, yes);
        double[] slope = new double[3];
        for (int i = 0; i < 60; i++) {
            for (int j = 0; j < 3; j++) {
                slope[j] += ((yes[i] ? 1 : 0) - fit.probability(rows[i])) * rows[i][j];
            }
        }
        assertThat(slope).as("seed %d", seed).containsExactly(new double[3], within(1e-8));
    }

    @Test
    void separationIsRecognised() {
        double[][] rows = {{1, 1}, {1, 2}, {1, 3}, {1, 4}};
        assertThat(Logistic.separated(rows, new boolean[] {false, false, true, true}))
                .isTrue();
        assertThat(Logistic.separated(rows, new boolean[] {true, true, false, false}))
                .isTrue();
        assertThat(Logistic.separated(rows, new boolean[] {false, true, false, true}))
                .isFalse();
        // touching at one place is separation too: only the readings there are undecided
        double[][] touching = {{1, 1}, {1, 2}, {1, 2}, {1, 4}};
        assertThat(Logistic.separated(touching, new boolean[] {false, false, true, true}))
                .isTrue();
        assertThatThrownBy(() -> Logistic.maximumLikelihood(rows, new boolean[] {false, false, true, true}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("separated");
    }

    @Test
    void unitOfThePredictorDoesNotMatter() {
        double[][] rows = {{1, 1}, {1, 2}, {1, 3}, {1, 4}, {1, 5}, {1, 6}};
        double[][] micro = {{1, 1e6}, {1, 2e6}, {1, 3e6}, {1, 4e6}, {1, 5e6}, {1, 6e6}};
        boolean[] yes = {false, false, true, false, true, true};
        LogisticFit one = Logistic.firth(rows, yes);
        LogisticFit million = Logistic.firth(micro, yes);
        assertThat(million.coefficient(1) * 1e6).isCloseTo(one.coefficient(1), within(1e-8));
        assertThat(million.crossing(0.5) / 1e6).isCloseTo(one.crossing(0.5), within(1e-8));
        assertThat(Logistic.separated(micro, yes)).isFalse();
    }

    @Test
    void exchangedOutcomesChangeTheSigns() {
        double[][] rows = {{1, 1}, {1, 2}, {1, 3}, {1, 4}, {1, 5}, {1, 6}};
        boolean[] yes = {false, false, true, false, true, true};
        boolean[] no = {true, true, false, true, false, false};
        LogisticFit one = Logistic.firth(rows, yes);
        LogisticFit other = Logistic.firth(rows, no);
        assertThat(other.coefficient(0)).isCloseTo(-one.coefficient(0), within(1e-9));
        assertThat(other.coefficient(1)).isCloseTo(-one.coefficient(1), within(1e-9));
    }

    @Test
    void intervalsAreNormalOnTheLogitScale() {
        LogisticFit fit = Logistic.maximumLikelihood(groups(4, 6, 7, 3), outcomes(4, 6, 7, 3));
        Interval interval = fit.probabilityInterval(0.95, 1, 0);
        double half = 1.959963984540054 * Math.sqrt(1.0 / 4 + 1.0 / 6);
        assertThat(Math.log(interval.high() / (1 - interval.high()))).isCloseTo(Math.log(4.0 / 6) + half, within(1e-9));
        assertThat(Math.log(interval.low() / (1 - interval.low()))).isCloseTo(Math.log(4.0 / 6) - half, within(1e-9));
    }

    @Test
    void crossingIsWhereTheProbabilityTakesTheShare() {
        long seed = 9;
        Random random = new Random(seed);
        double[][] rows = new double[200][];
        boolean[] yes = new boolean[200];
        for (int i = 0; i < 200; i++) {
            double x = i / 20.0;
            rows[i] = new double[] {1, x};
            yes[i] = random.nextDouble() < 1 / (1 + Math.exp(-1.5 * (x - 5)));
        }
        LogisticFit fit = Logistic.maximumLikelihood(rows, yes);
        double at = fit.crossing(0.9);
        assertThat(fit.probability(1, at)).isCloseTo(0.9, within(1e-12));
        Interval interval = fit.crossingInterval(0.9, 0.95).orElseThrow();
        assertThat(interval.contains(at)).isTrue();
        // an end of the set is where the band of the logit meets the wanted logit
        Interval band = fit.probabilityInterval(0.95, 1, interval.low());
        assertThat(Math.min(Math.abs(band.low() - 0.9), Math.abs(band.high() - 0.9)))
                .isLessThan(1e-6);
    }

    @Test
    void badArgumentsAreNamed() {
        double[][] rows = {{1, 1}, {1, 2}, {1, 3}};
        assertThatThrownBy(() -> Logistic.firth(rows, new boolean[2])).hasMessageContaining("outcomes");
        assertThatThrownBy(() -> Logistic.firth(new double[][] {{1, 1}}, new boolean[1]))
                .hasMessageContaining("rows");
        LogisticFit fit = Logistic.firth(rows, new boolean[] {false, true, false});
        assertThatThrownBy(() -> fit.crossing(1)).hasMessageContaining("share");
        assertThatThrownBy(() -> fit.probabilityInterval(95, 1, 1)).hasMessageContaining("confidence");
        LogisticFit constant = Logistic.firth(new double[][] {{1}, {1}}, new boolean[] {true, false});
        assertThatThrownBy(() -> constant.crossing(0.5)).hasMessageContaining("coefficients");
        assertThatThrownBy(() -> constant.crossingInterval(0.5, 0.9)).hasMessageContaining("coefficients");
    }

    private static double[][] groups(int yes0, int no0, int yes1, int no1) {
        double[][] rows = new double[yes0 + no0 + yes1 + no1][];
        Arrays.setAll(rows, i -> new double[] {1, i < yes0 + no0 ? 0 : 1});
        return rows;
    }

    private static boolean[] outcomes(int yes0, int no0, int yes1, int no1) {
        boolean[] yes = new boolean[yes0 + no0 + yes1 + no1];
        Arrays.fill(yes, 0, yes0, true);
        Arrays.fill(yes, yes0 + no0, yes0 + no0 + yes1, true);
        return yes;
    }
}
