package slowproof.metrology.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;

class PowerTest {
    // 10 degrees of freedom bring a standard deviation within a factor 1.5 in 90 % of cases, a variance asks for 34.
    @Test
    void factorOnADeviationNeedsFewerReadingsThanOnAVariance() {
        assertThat(Power.degreesOfFreedomForDeviation(1.5, 0.9)).isEqualTo(10);
        assertThat(Power.degreesOfFreedomForDeviation(Math.sqrt(1.5), 0.9)).isEqualTo(34);
        assertThat(Power.degreesOfFreedomForDeviation(50, 0.1)).isEqualTo(1);
    }

    @Test
    void readingsForAMeanAreTheFewestThatSuffice() {
        for (double width : new double[] {0.1, 0.5, 2, 20}) {
            int n = Power.readingsForMean(1, width, 0.95);
            assertThat(half(n)).isLessThanOrEqualTo(width);
            if (n > 2) {
                assertThat(half(n - 1)).isGreaterThan(width);
            }
            assertThat(Power.readingsForMean(3, 3 * width, 0.95)).isEqualTo(n);
        }
        assertThat(Power.readingsForMean(1, 100, 0.95)).isEqualTo(2);
    }

    // 0.5645: computed with scipy.stats.nct for d = 0.5, n = 20, alpha = 0.05.
    @Test
    void powerOfADifferenceAgreesWithAnIndependentComputation() {
        assertThat(Power.ofDifference(0.5, 1, 20, 0.05)).isCloseTo(0.564504418439021, within(1e-10));
        assertThat(Power.ofDifference(-0.5, 1, 20, 0.05)).isCloseTo(0.564504418439021, within(1e-10));
        assertThat(Power.ofDifference(0, 3, 8, 0.05)).isCloseTo(0.05, within(1e-10));
        assertThat(Power.ofDifference(5, 10, 20, 0.05)).isCloseTo(0.564504418439021, within(1e-10));
    }

    @Test
    void powerOfConformityAgreesWithSimulation() {
        long seed = 8;
        Random random = new Random(seed);
        double[][] situations = {{1, 0, 1, 12}, {1, 0.5, 0.8, 6}, {2, -1, 1, 4}, {0.3, 0, 0.1, 2}};
        for (double[] s : situations) {
            int n = (int) s[3];
            double t = Distributions.studentQuantile(0.95, n - 1.0);
            int proved = 0;
            int trials = 20_000;
            for (int trial = 0; trial < trials; trial++) {
                double sum = 0;
                double squares = 0;
                for (int i = 0; i < n; i++) {
                    double x = s[1] + s[2] * random.nextGaussian();
                    sum += x;
                    squares += x * x;
                }
                double mean = sum / n;
                double error = Math.sqrt((squares / n - mean * mean) / (n - 1));
                proved += Math.abs(mean) + t * error <= s[0] ? 1 : 0;
            }
            double power = Power.ofConformity(s[0], s[1], s[2], n, 0.05);
            // four standard errors of the simulated share
            assertThat((double) proved / trials)
                    .as("seed %d, limit %s, mean %s", seed, s[0], s[1])
                    .isCloseTo(power, within(4 * Math.sqrt(power * (1 - power) / trials) + 1e-4));
        }
    }

    @Test
    void conformityIsNotProvedMoreOftenThanStatedOnTheLimit() {
        for (int n : new int[] {2, 5, 50}) {
            for (double scatter : new double[] {0.05, 0.3, 3}) {
                assertThat(Power.ofConformity(1, 1, scatter, n, 0.05))
                        .as("n %d, scatter %s", n, scatter)
                        .isLessThanOrEqualTo(0.05 + 1e-10);
            }
        }
        // scatter small against the limit: the far limit plays no part and the level is used up
        assertThat(Power.ofConformity(1, 1, 0.01, 10, 0.05)).isCloseTo(0.05, within(1e-9));
        assertThat(Power.ofConformity(1, -1, 0.01, 10, 0.05)).isCloseTo(0.05, within(1e-9));
        assertThat(Power.ofConformity(1, 0, 1e-4, 3, 0.05)).isCloseTo(1, within(1e-12));
        assertThat(Power.ofConformity(1, 0, 1e4, 3, 0.05)).isLessThan(1e-6);
    }

    @Test
    void readingsForConformityAreTheFewestThatSuffice() {
        for (double mean : new double[] {0, 0.5, -0.8}) {
            int n = Power.readingsForConformity(1, mean, 0.7, 0.05, 0.8).orElseThrow();
            assertThat(Power.ofConformity(1, mean, 0.7, n, 0.05)).isGreaterThanOrEqualTo(0.8);
            assertThat(Power.ofConformity(1, mean, 0.7, n - 1, 0.05)).isLessThan(0.8);
        }
        assertThat(Power.readingsForConformity(1, 0.999_999, 1, 0.05, 0.9)).isEmpty();
        assertThat(Power.readingsForConformity(1, 0, 0.001, 0.05, 0.8)).hasValue(2);
    }

    @Test
    void badArgumentsAreNamed() {
        assertThatThrownBy(() -> Power.readingsForMean(0, 1, 0.9)).hasMessageContaining("standard deviation");
        assertThatThrownBy(() -> Power.readingsForMean(1, 0, 0.9)).hasMessageContaining("half width");
        assertThatThrownBy(() -> Power.readingsForMean(1, 1, 1)).hasMessageContaining("confidence");
        assertThatThrownBy(() -> Power.readingsForMean(1, 1e-6, 0.95)).hasMessageContaining("more than");
        assertThatThrownBy(() -> Power.degreesOfFreedomForDeviation(1, 0.9)).hasMessageContaining("factor");
        assertThatThrownBy(() -> Power.degreesOfFreedomForDeviation(Double.NaN, 0.9))
                .hasMessageContaining("factor");
        assertThatThrownBy(() -> Power.degreesOfFreedomForDeviation(2, 1)).hasMessageContaining("probability");
        assertThatThrownBy(() -> Power.degreesOfFreedomForDeviation(1.000001, 0.99))
                .hasMessageContaining("more than");
        assertThatThrownBy(() -> Power.ofDifference(Double.NaN, 1, 5, 0.05)).hasMessageContaining("mean");
        assertThatThrownBy(() -> Power.ofDifference(1, 0, 5, 0.05)).hasMessageContaining("standard deviation");
        assertThatThrownBy(() -> Power.ofDifference(1, 1, 1, 0.05)).hasMessageContaining("two readings");
        assertThatThrownBy(() -> Power.ofDifference(1, 1, 5, 0)).hasMessageContaining("level");
        assertThatThrownBy(() -> Power.ofConformity(0, 0, 1, 5, 0.05)).hasMessageContaining("limit");
        assertThatThrownBy(() -> Power.ofConformity(1, Double.NaN, 1, 5, 0.05)).hasMessageContaining("mean");
        assertThatThrownBy(() -> Power.ofConformity(1, 0, 0, 5, 0.05)).hasMessageContaining("standard deviation");
        assertThatThrownBy(() -> Power.ofConformity(1, 0, 1, 1, 0.05)).hasMessageContaining("two readings");
        assertThatThrownBy(() -> Power.ofConformity(1, 0, 1, 5, 0.5)).hasMessageContaining("level");
        assertThatThrownBy(() -> Power.ofConformity(1, 0, 1, 5, 0)).hasMessageContaining("level");
        assertThatThrownBy(() -> Power.readingsForConformity(1, 1, 1, 0.05, 0.8))
                .hasMessageContaining("cannot");
        assertThatThrownBy(() -> Power.readingsForConformity(1, 0, 1, 0.05, 1)).hasMessageContaining("power");
    }

    private static double half(int n) {
        return Distributions.studentQuantile(0.975, n - 1.0) / Math.sqrt(n);
    }
}
