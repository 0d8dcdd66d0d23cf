package slowproof.metrology.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

class ToleranceTest {
    @Test
    void noncentralStudentWithoutShiftIsStudent() {
        for (double nu : new double[] {1, 2, 7, 40}) {
            for (double t : new double[] {-3, -0.5, 0, 1, 4}) {
                assertThat(NonCentralStudent.cdf(t, nu, 0))
                        .as("t %s, nu %s", t, nu)
                        .isCloseTo(Distributions.studentCdf(t, nu), within(1e-12));
            }
        }
    }

    // Computed with scipy.stats.nct, version 1.17.
    @Test
    void noncentralStudentAgreesWithAnIndependentComputation() {
        assertThat(NonCentralStudent.cdf(2, 5, 1)).isCloseTo(0.7780746626162148, within(1e-12));
        assertThat(NonCentralStudent.cdf(-1, 3, 0.5)).isCloseTo(0.09212120981435942, within(1e-12));
        assertThat(NonCentralStudent.cdf(4, 30, 3)).isCloseTo(0.8048965358309579, within(1e-12));
        assertThat(NonCentralStudent.cdf(NonCentralStudent.quantile(0.9, 7, -1.2), 7, -1.2))
                .isCloseTo(0.9, within(1e-12));
        assertThat(NonCentralStudent.quantile(0.9, 7, -1.2)).isCloseTo(0.08483470793477384, within(1e-10));
    }

    @Test
    void noncentralStudentIsTheNormalProbabilityAtZero() {
        assertThat(NonCentralStudent.cdf(0, 4, 1.3)).isCloseTo(Distributions.normalCdf(-1.3), within(1e-13));
        // mirror: P(T <= t | delta) = 1 - P(T <= -t | -delta)
        assertThat(NonCentralStudent.cdf(1.7, 1, 2)).isCloseTo(1 - NonCentralStudent.cdf(-1.7, 1, -2), within(1e-12));
        // far out the quantile of one degree of freedom still inverts
        double far = NonCentralStudent.quantile(0.999, 1, 3);
        assertThat(NonCentralStudent.cdf(far, 1, 3)).isCloseTo(0.999, within(1e-11));
        assertThat(NonCentralStudent.quantile(0.001, 2, 0)).isCloseTo(-22.327124770119877, within(1e-9));
    }

    @Test
    void factorsApproachTheNormalQuantileForManyReadings() {
        assertThat(ToleranceFactor.twoSided(0.95, 0.95, 1_000_000)).isCloseTo(1.96, within(0.003));
        assertThat(ToleranceFactor.oneSided(0.95, 0.95, 1_000_000)).isCloseTo(1.645, within(0.004));
        assertThat(ToleranceFactor.howe(0.95, 0.95, 1_000_000)).isCloseTo(1.96, within(0.003));
        // half the confidence and half the content: the mean itself
        assertThat(ToleranceFactor.oneSided(0.5, 0.5, 7)).isCloseTo(0, within(1e-12));
    }

    @Test
    void howeIsCloseToTheExactFactor() {
        for (int n : new int[] {5, 10, 30}) {
            assertThat(ToleranceFactor.howe(0.99, 0.95, n) / ToleranceFactor.twoSided(0.99, 0.95, n))
                    .as("n = %d", n)
                    .isBetween(0.98, 1.02);
        }
    }

    @Test
    void intervalIsMeanAndFactorTimesDeviation() {
        double[] values = {1, 2, 3, 4, 5};
        Interval interval = ToleranceFactor.interval(values, 0.95, 0.95);
        // k2 of five readings is 5.077 (ISO 16269-6, from memory)
        assertThat(interval.centre()).isCloseTo(3, within(1e-12));
        assertThat(interval.width() / 2).isCloseTo(5.077 * Math.sqrt(2.5), within(0.001));
    }

    @Test
    void confidenceOfOrderedReadingsAgreesWithItsClosedForms() {
        // below the largest: 1 - P^n; between the extremes: 1 - n P^(n-1) + (n-1) P^n
        assertThat(DistributionFree.confidence(0.9, 20, 20)).isCloseTo(1 - Math.pow(0.9, 20), within(1e-12));
        assertThat(DistributionFree.confidence(0.9, 20, 19))
                .isCloseTo(1 - 20 * Math.pow(0.9, 19) + 19 * Math.pow(0.9, 20), within(1e-12));
    }

    @Test
    void readingsAreTheFewestThatSuffice() {
        for (double content : new double[] {0.5, 0.8, 0.9, 0.99, 0.999}) {
            for (double confidence : new double[] {0.5, 0.9, 0.99}) {
                int one = DistributionFree.readingsOneSided(content, confidence);
                assertThat(1 - Math.pow(content, one)).isGreaterThanOrEqualTo(confidence - 1e-12);
                if (one > 1) {
                    assertThat(1 - Math.pow(content, one - 1)).isLessThan(confidence);
                }
                int two = DistributionFree.readingsTwoSided(content, confidence);
                assertThat(DistributionFree.confidence(content, two, two - 1)).isGreaterThanOrEqualTo(confidence);
                if (two > 2) {
                    assertThat(DistributionFree.confidence(content, two - 1, two - 2))
                            .isLessThan(confidence);
                }
            }
        }
        assertThat(DistributionFree.readingsOneSided(0.5, 0.5)).isEqualTo(1);
        assertThat(DistributionFree.readingsTwoSided(0.1, 0.01)).isEqualTo(2);
    }

    @Test
    void orderedReadingsAreLeftOutAsFarAsTheConfidenceAllows() {
        double[] values = new double[100];
        for (int i = 0; i < 100; i++) {
            values[i] = (i * 37) % 100;
        }
        // 100 readings, 90 % with 95 %: one may be left out at either end (95 gaps would reach 94.2 % only)
        assertThat(DistributionFree.confidence(0.9, 100, 97)).isGreaterThan(0.95);
        assertThat(DistributionFree.confidence(0.9, 100, 95)).isLessThan(0.95);
        assertThat(DistributionFree.interval(values, 0.9, 0.95)).contains(new Interval(1, 98));
        assertThat(DistributionFree.interval(new double[] {1, 2, 3}, 0.9, 0.95)).isEmpty();
        assertThat(DistributionFree.interval(new double[] {1}, 0.1, 0.1)).isEmpty();
        assertThat(DistributionFree.interval(new double[] {2, 1}, 0.1, 0.5)).contains(new Interval(1, 2));
    }

    @Test
    void badArgumentsAreNamed() {
        assertThatThrownBy(() -> NonCentralStudent.cdf(1, 0.5, 0)).hasMessageContaining("degrees of freedom");
        assertThatThrownBy(() -> NonCentralStudent.cdf(1, Double.POSITIVE_INFINITY, 0))
                .hasMessageContaining("degrees of freedom");
        assertThatThrownBy(() -> NonCentralStudent.cdf(Double.NaN, 1, 0)).hasMessageContaining("t must");
        assertThatThrownBy(() -> NonCentralStudent.cdf(1, 1, Double.NaN)).hasMessageContaining("shift");
        assertThatThrownBy(() -> NonCentralStudent.quantile(1, 1, 0)).hasMessageContaining("probability");
        assertThatThrownBy(() -> NonCentralStudent.quantile(0.5, Double.NaN, 0)).hasMessageContaining("degrees");
        assertThatThrownBy(() -> ToleranceFactor.oneSided(95, 0.95, 5)).hasMessageContaining("content");
        assertThatThrownBy(() -> ToleranceFactor.oneSided(0.95, 95, 5)).hasMessageContaining("confidence");
        assertThatThrownBy(() -> ToleranceFactor.twoSided(0.95, 0.95, 1)).hasMessageContaining("two readings");
        assertThatThrownBy(() -> ToleranceFactor.howe(0.95, 0.95, 1)).hasMessageContaining("two readings");
        assertThatThrownBy(() -> ToleranceFactor.howe(0, 0.95, 3)).hasMessageContaining("content");
        assertThatThrownBy(() -> ToleranceFactor.twoSided(0.9, 0, 3)).hasMessageContaining("confidence");
        assertThatThrownBy(() -> ToleranceFactor.oneSidedApproximate(0.95, 0.99, 2))
                .hasMessageContaining("too few");
        assertThatThrownBy(() -> ToleranceFactor.oneSidedApproximate(0.95, 0.99, 1))
                .hasMessageContaining("two readings");
        assertThatThrownBy(() -> DistributionFree.confidence(1, 5, 1)).hasMessageContaining("content");
        assertThatThrownBy(() -> DistributionFree.confidence(0.9, 5, 6)).hasMessageContaining("gaps");
        assertThatThrownBy(() -> DistributionFree.confidence(0.9, 5, 0)).hasMessageContaining("gaps");
        assertThatThrownBy(() -> DistributionFree.confidence(0.9, 0, 1)).hasMessageContaining("gaps");
        assertThatThrownBy(() -> DistributionFree.readingsOneSided(0, 0.9)).hasMessageContaining("content");
        assertThatThrownBy(() -> DistributionFree.readingsOneSided(0.9, 1)).hasMessageContaining("confidence");
        assertThatThrownBy(() -> DistributionFree.readingsTwoSided(0.9, 1)).hasMessageContaining("confidence");
        assertThatThrownBy(() -> DistributionFree.readingsTwoSided(0.9999999999, 0.95))
                .hasMessageContaining("more than");
        double[] broken = {1, Double.NaN};
        assertThatThrownBy(() -> DistributionFree.interval(broken, 0.9, 0.9)).hasMessageContaining("NaN");
        double[] two = {1, 2};
        assertThatThrownBy(() -> DistributionFree.interval(two, 1, 0.9)).hasMessageContaining("content");
        assertThatThrownBy(() -> DistributionFree.interval(two, 0.9, 1)).hasMessageContaining("confidence");
    }
}
