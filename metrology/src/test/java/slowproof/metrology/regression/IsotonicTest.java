package slowproof.metrology.regression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Interval;

class IsotonicTest {
    // The fitted value is the largest mean over starts of the smallest mean over ends (min-max formula).
    @Test
    void everyLevelAgreesWithTheMinMaxFormula() {
        long seed = 3;
        Random random = new Random(seed);
        for (int round = 0; round < 200; round++) {
            int size = 1 + random.nextInt(12);
            double[] y = new double[size];
            double[] w = new double[size];
            for (int i = 0; i < size; i++) {
                y[i] = random.nextInt(6);
                w[i] = 0.5 + random.nextInt(3);
            }
            double[] fitted = Isotonic.increasing(y, w);
            for (int i = 0; i < size; i++) {
                double best = Double.NEGATIVE_INFINITY;
                for (int start = 0; start <= i; start++) {
                    double least = Double.POSITIVE_INFINITY;
                    for (int end = i; end < size; end++) {
                        double sum = 0;
                        double weight = 0;
                        for (int k = start; k <= end; k++) {
                            sum += w[k] * y[k];
                            weight += w[k];
                        }
                        least = Math.min(least, sum / weight);
                    }
                    best = Math.max(best, least);
                }
                assertThat(fitted[i])
                        .as("seed %d, round %d, place %d", seed, round, i)
                        .isCloseTo(best, within(1e-12));
            }
        }
    }

    @Test
    void decreasingIsIncreasingOfTheNegative() {
        assertThat(Isotonic.decreasing(new double[] {3, 4, 1, 2}, new double[] {1, 1, 1, 3}))
                .containsExactly(new double[] {3.5, 3.5, 1.75, 1.75}, within(1e-15));
    }

    @Test
    void inputIsLeftAlone() {
        double[] y = {3, 2, 1};
        Isotonic.increasing(y, new double[] {1, 1, 1});
        assertThat(y).containsExactly(3, 2, 1);
    }

    @Test
    void stepFunctionHoldsEachLevelUpToTheNextAbscissa() {
        // unordered, with a tie at 2 whose mean is 5
        Isotonic fit = Isotonic.increasingIn(new double[] {3, 1, 2, 2}, new double[] {9, 1, 4, 6});
        assertThat(fit.value(-10)).isEqualTo(1);
        assertThat(fit.value(1)).isEqualTo(1);
        assertThat(fit.value(1.99)).isEqualTo(1);
        assertThat(fit.value(2)).isEqualTo(5);
        assertThat(fit.value(2.5)).isEqualTo(5);
        assertThat(fit.value(3)).isEqualTo(9);
        assertThat(fit.value(100)).isEqualTo(9);
    }

    @Test
    void tiedReadingsCountEach() {
        // three readings of mean 4 at x = 1 against one of 0 at x = 2: pooled level 3
        Isotonic fit = Isotonic.increasingIn(new double[] {1, 1, 1, 2}, new double[] {3, 4, 5, 0});
        assertThat(fit.value(1)).isCloseTo(3, within(1e-15));
        assertThat(fit.value(2)).isCloseTo(3, within(1e-15));
    }

    @Test
    void bandHoldsTheFitAndFollowsTheSeed() {
        double[] x = {1, 2, 3, 4, 1, 2, 3, 4, 1, 2, 3, 4, 1, 2, 3, 4};
        double[] y = {1, 2, 3, 5, 1.1, 2.2, 2.9, 5.3, 0.8, 1.9, 3.2, 4.8, 1.2, 2.1, 3, 5.1};
        int[] clusters = {0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3};
        double[] at = {1, 3.5, 4};
        List<Interval> band = IsotonicBand.increasing(x, y, clusters, at, 0.9, 500, 7);
        Isotonic fit = Isotonic.increasingIn(x, y);
        for (int k = 0; k < at.length; k++) {
            assertThat(band.get(k).contains(fit.value(at[k]))).isTrue();
            assertThat(band.get(k).width()).isPositive();
        }
        assertThat(IsotonicBand.increasing(x, y, clusters, at, 0.9, 500, 7)).isEqualTo(band);
        assertThat(IsotonicBand.increasing(x, y, clusters, at, 0.5, 500, 7)
                        .get(2)
                        .width())
                .isLessThan(band.get(2).width());
    }

    // Every reading doubled within its cluster says nothing new, so the band may not shrink.
    @Test
    void repeatedReadingsOfTheSameClusterDoNotNarrowTheBand() {
        double[] x = {1, 1, 1, 1, 1, 1};
        double[] y = {1, 2, 3, 4, 5, 6};
        int[] clusters = {0, 1, 2, 3, 4, 5};
        double[] doubledX = new double[12];
        double[] doubledY = new double[12];
        int[] doubledClusters = new int[12];
        for (int i = 0; i < 12; i++) {
            doubledX[i] = x[i / 2];
            doubledY[i] = y[i / 2];
            doubledClusters[i] = clusters[i / 2];
        }
        double[] at = {1};
        Interval single =
                IsotonicBand.increasing(x, y, clusters, at, 0.9, 1000, 1).get(0);
        Interval twice = IsotonicBand.increasing(doubledX, doubledY, doubledClusters, at, 0.9, 1000, 1)
                .get(0);
        assertThat(twice.low()).isCloseTo(single.low(), within(1e-12));
        assertThat(twice.high()).isCloseTo(single.high(), within(1e-12));
        // the mean of 6 draws from 1..6 has standard deviation sqrt(35/12/6) = 0.70, times 2 * 2.015 sqrt(6/5)
        assertThat(single.width()).isBetween(2.7, 3.5);
    }

    @Test
    void badArgumentsAreNamed() {
        double[] two = {1, 2};
        int[] clusters = {0, 1};
        assertThatThrownBy(() -> Isotonic.increasing(new double[0], new double[0]))
                .hasMessageContaining("one value");
        assertThatThrownBy(() -> Isotonic.increasing(two, new double[] {1})).hasMessageContaining("weights");
        assertThatThrownBy(() -> Isotonic.increasing(two, new double[] {1, 0})).hasMessageContaining("weight");
        assertThatThrownBy(() -> Isotonic.increasing(new double[] {Double.NaN}, new double[] {1}))
                .hasMessageContaining("NaN");
        assertThatThrownBy(() -> Isotonic.increasingIn(two, new double[] {1})).hasMessageContaining("values");
        assertThatThrownBy(() -> Isotonic.increasingIn(new double[] {1, Double.NaN}, two))
                .hasMessageContaining("NaN");
        assertThatThrownBy(() -> Isotonic.increasingIn(two, two).value(Double.NaN))
                .hasMessageContaining("abscissa");
        assertThatThrownBy(() -> IsotonicBand.increasing(two, two, clusters, two, 0.9, 99, 1))
                .hasMessageContaining("100 draws");
        assertThatThrownBy(() -> IsotonicBand.increasing(two, two, new int[] {1, 1}, two, 0.9, 100, 1))
                .hasMessageContaining("two clusters");
        assertThatThrownBy(() -> IsotonicBand.increasing(two, two, new int[] {1}, two, 0.9, 100, 1))
                .hasMessageContaining("cluster numbers");
        assertThatThrownBy(() -> IsotonicBand.increasing(two, new double[] {1}, clusters, two, 0.9, 100, 1))
                .hasMessageContaining("values");
        assertThatThrownBy(() -> IsotonicBand.increasing(two, two, clusters, two, 90, 100, 1))
                .hasMessageContaining("confidence");
        assertThat(IsotonicBand.increasing(two, two, clusters, two, 0.9, 100, 1))
                .hasSize(2);
    }
}
