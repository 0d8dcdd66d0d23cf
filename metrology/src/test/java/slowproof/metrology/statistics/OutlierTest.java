package slowproof.metrology.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class OutlierTest {
    @Test
    void pValueAtTheCriticalValueIsTheLevel() {
        for (double alpha : new double[] {0.01, 0.05}) {
            for (int n : new int[] {3, 8, 30}) {
                assertThat(Grubbs.pValue(Grubbs.criticalValue(alpha, n), n)).isCloseTo(alpha, within(1e-9));
                assertThat(Cochran.pValue(Cochran.criticalValue(alpha, n, 2), n, 2))
                        .isCloseTo(alpha, within(1e-9));
                assertThat(Cochran.pValue(Cochran.criticalValue(alpha, n, 5), n, 5))
                        .isCloseTo(alpha, within(1e-9));
            }
        }
        assertThat(Grubbs.pValue(0, 10)).isEqualTo(1);
        // the largest possible statistic, (n - 1)/sqrt(n): all other values equal
        assertThat(Grubbs.pValue(9 / Math.sqrt(10), 10)).isCloseTo(0, within(1e-12));
        assertThat(Grubbs.pValue(Grubbs.statistic(new double[] {0, 0, 0, 0.1}).statistic(), 4))
                .isLessThan(1e-6);
        assertThat(Cochran.pValue(1, 4, 3)).isZero();
        assertThat(Cochran.pValue(0.25, 4, 3)).isEqualTo(1);
    }

    @Test
    void pairRatioAgreesWithHandCalculation() {
        // squares about their means: all (mean 4) 9+4+1+0+1+4+9 -> values 1..7: 28; without 6 and 7: 1..5: 10
        double[] values = {3, 7, 1, 5, 2, 6, 4};
        assertThat(GrubbsPair.ratio(values, GrubbsPair.End.LARGEST)).isCloseTo(10.0 / 28, within(1e-14));
        assertThat(GrubbsPair.ratio(values, GrubbsPair.End.SMALLEST)).isCloseTo(10.0 / 28, within(1e-14));
        double[] skewed = {0, 0, 1, 1, 9, 10};
        // kept 0, 0, 1, 1: 1; all: mean 3.5, 12.25*2 + 6.25*2 + 30.25 + 42.25 = 109.5
        assertThat(GrubbsPair.ratio(skewed, GrubbsPair.End.LARGEST)).isCloseTo(1 / 109.5, within(1e-14));
        // kept 1, 1, 9, 10: mean 5.25, 18.0625*2 + 14.0625 + 22.5625 = 72.75
        assertThat(GrubbsPair.ratio(skewed, GrubbsPair.End.SMALLEST)).isCloseTo(72.75 / 109.5, within(1e-14));
        assertThat(skewed).containsExactly(0, 0, 1, 1, 9, 10);
    }

    @Test
    void pairRatioOfNormalReadingsFallsBelowItsCriticalValueAsOftenAsStated() {
        long seed = 61;
        Random random = new Random(seed);
        int trials = 40_000;
        for (int n : new int[] {4, 6, 11}) {
            double critical = GrubbsPair.criticalValue(0.1, n);
            int below = 0;
            for (int trial = 0; trial < trials; trial++) {
                double[] values = new double[n];
                for (int i = 0; i < n; i++) {
                    values[i] = random.nextGaussian();
                }
                below += GrubbsPair.ratio(values, GrubbsPair.End.LARGEST) < critical ? 1 : 0;
            }
            // four standard errors
            assertThat((double) below / trials).as("n %d, seed %d", n, seed).isCloseTo(0.05, within(0.0044));
        }
    }

    @Test
    void pairProbabilityInvertsTheCriticalValue() {
        for (int n : new int[] {4, 9, 25}) {
            assertThat(GrubbsPair.probabilityBelow(GrubbsPair.criticalValue(0.05, n), n))
                    .as("n %d", n)
                    .isCloseTo(0.025, within(1e-9));
            assertThat(GrubbsPair.probabilityBelow(0, n)).isZero();
            assertThat(GrubbsPair.probabilityBelow(1, n)).isEqualTo(1);
            // nothing is lost: nearly the whole range holds nearly all the probability
            assertThat(GrubbsPair.probabilityBelow(0.99999, n)).isCloseTo(1, within(2e-4));
        }
    }

    @Test
    void largestOfThreeLiesEvenlyInItsAngle() {
        // for three values the angle is uniform from 0 to 60 degrees
        StudentisedMaximum three = StudentisedMaximum.of(3);
        for (double degrees : new double[] {5, 20, 45, 59}) {
            double t = Math.cos(Math.toRadians(degrees)) * Math.sqrt(2.0 / 3);
            assertThat(three.atMost(t)).as("%s degrees", degrees).isCloseTo(1 - degrees / 60, within(1e-9));
        }
        assertThat(three.atMost(0.3)).isZero();
        assertThat(three.atMost(0.9)).isEqualTo(1);
        assertThat(three.atMost(-1)).isZero();
    }

    @Test
    void largestOfManyAgreesWithSimulation() {
        long seed = 62;
        Random random = new Random(seed);
        StudentisedMaximum seven = StudentisedMaximum.of(7);
        int trials = 40_000;
        double[] found = new double[trials];
        for (int trial = 0; trial < trials; trial++) {
            double[] values = new double[7];
            for (int i = 0; i < 7; i++) {
                values[i] = random.nextGaussian();
            }
            double mean = Statistics.mean(values);
            double root = Statistics.standardDeviation(values) * Math.sqrt(6);
            found[trial] = (Arrays.stream(values).max().orElseThrow() - mean) / root;
        }
        Arrays.sort(found);
        for (double share : new double[] {0.02, 0.25, 0.5, 0.75, 0.98}) {
            assertThat(seven.atMost(found[(int) (share * trials)]))
                    .as("seed %d", seed)
                    .isCloseTo(share, within(4 * Math.sqrt(share * (1 - share) / trials) + 1e-4));
        }
    }

    // The worked example of the step-down procedure by hand: sorted .005 .01 .03 .04 times 4 3 2 1, never decreasing.
    @Test
    void holmAdjustsStepByStep() {
        assertThat(MultipleTests.holm(new double[] {0.01, 0.04, 0.03, 0.005}))
                .containsExactly(new double[] {0.03, 0.06, 0.06, 0.02}, within(1e-15));
        assertThat(MultipleTests.holm(new double[] {0.6, 0.7})).containsExactly(1, 1);
        assertThat(MultipleTests.holm(new double[0])).isEmpty();
        assertThatThrownBy(() -> MultipleTests.holm(new double[] {1.1})).hasMessageContaining("p-value");
        assertThatThrownBy(() -> MultipleTests.holm(new double[] {-0.1})).hasMessageContaining("p-value");
        assertThatThrownBy(() -> MultipleTests.holm(new double[] {Double.NaN})).hasMessageContaining("p-value");
    }

    @Test
    void badArgumentsAreNamed() {
        assertThatThrownBy(() -> Grubbs.pValue(1, 2)).hasMessageContaining("three values");
        assertThatThrownBy(() -> Grubbs.pValue(-1, 5)).hasMessageContaining("statistic");
        assertThatThrownBy(() -> Grubbs.pValue(5, 5)).hasMessageContaining("statistic");
        assertThatThrownBy(() -> Grubbs.pValue(Double.NaN, 5)).hasMessageContaining("statistic");
        assertThatThrownBy(() -> Cochran.pValue(0.5, 1, 2)).hasMessageContaining("groups");
        assertThatThrownBy(() -> Cochran.pValue(0.5, 2, 1)).hasMessageContaining("groups");
        assertThatThrownBy(() -> Cochran.pValue(0.4, 2, 2)).hasMessageContaining("statistic");
        assertThatThrownBy(() -> Cochran.pValue(1.1, 2, 2)).hasMessageContaining("statistic");
        double[] three = {1, 2, 3};
        double[] equal = {1, 1, 1, 1};
        assertThatThrownBy(() -> GrubbsPair.ratio(three, GrubbsPair.End.LARGEST))
                .hasMessageContaining("four");
        assertThatThrownBy(() -> GrubbsPair.ratio(equal, GrubbsPair.End.LARGEST))
                .hasMessageContaining("equal");
        assertThatThrownBy(() -> GrubbsPair.criticalValue(0, 5)).hasMessageContaining("level");
        assertThatThrownBy(() -> GrubbsPair.criticalValue(0.05, 3)).hasMessageContaining("4 to 200");
        assertThatThrownBy(() -> GrubbsPair.criticalValue(0.05, 201)).hasMessageContaining("4 to 200");
        assertThatThrownBy(() -> GrubbsPair.probabilityBelow(1.5, 5)).hasMessageContaining("ratio");
        assertThatThrownBy(() -> GrubbsPair.probabilityBelow(Double.NaN, 5)).hasMessageContaining("ratio");
    }
}
