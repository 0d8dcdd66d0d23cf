package slowproof.metrology.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/** Readings in time order, their shape against the normal one, and tables of positioning deviations. */
class OrderAndShapeTest {
    @Test
    void runsAreCountedAboutTheMedian() {
        // median 4: - - + + - + with the 4 left out
        RunsTest test = RunsTest.of(new double[] {1, 2, 5, 6, 4, 3, 7});
        assertThat(test.runs()).isEqualTo(4);
        assertThat(test.above()).isEqualTo(3);
        assertThat(test.below()).isEqualTo(3);
        assertThat(test.expectedRuns()).isCloseTo(4, within(1e-14));
        // an even number of readings: the median lies between the middle two
        assertThat(RunsTest.of(new double[] {1, 2, 3, 4})).isEqualTo(new RunsTest(2, 2, 2));
        // readings on the median are left out: - | + + with three fives in between
        assertThat(RunsTest.of(new double[] {1, 5, 5, 5, 7, 8})).isEqualTo(new RunsTest(2, 2, 1));
        // all readings of one side first
        assertThat(RunsTest.of(new double[] {5, 6, 7, 1, 2, 3}).runs()).isEqualTo(2);
    }

    // Every order of the signs is alike: count them all.
    @Test
    void probabilityOfRunsAgreesWithCountingAllOrders() {
        for (int above = 1; above <= 5; above++) {
            for (int below = 1; below <= 5; below++) {
                int n = above + below;
                int[] counts = new int[n + 1];
                int total = 0;
                for (int mask = 0; mask < 1 << n; mask++) {
                    if (Integer.bitCount(mask) == above) {
                        int runs = 1 + Integer.bitCount((mask ^ (mask >> 1)) & ((1 << (n - 1)) - 1));
                        counts[runs]++;
                        total++;
                    }
                }
                for (int runs = 2; runs <= n; runs++) {
                    if (counts[runs] == 0) {
                        continue;
                    }
                    double atMost = 0;
                    double atLeast = 0;
                    double mean = 0;
                    for (int r = 2; r <= n; r++) {
                        atMost += r <= runs ? counts[r] : 0;
                        atLeast += r >= runs ? counts[r] : 0;
                        mean += (double) r * counts[r] / total;
                    }
                    RunsTest test = new RunsTest(runs, above, below);
                    assertThat(test.pValue())
                            .as("%d runs of %d and %d", runs, above, below)
                            .isCloseTo(Math.min(1, 2 * Math.min(atMost, atLeast) / total), within(1e-12));
                    assertThat(test.expectedRuns()).isCloseTo(mean, within(1e-12));
                }
            }
        }
    }

    @Test
    void plotPlacesAreSymmetricAndTheirOwnPlotIsStraight() {
        for (int n : new int[] {3, 4, 11}) {
            double[] places = NormalPlot.places(n);
            for (int i = 0; i < n; i++) {
                assertThat(places[i]).isCloseTo(-places[n - 1 - i], within(1e-12));
            }
            assertThat(NormalPlot.correlation(places)).isCloseTo(1, within(1e-14));
        }
        // the largest of n is below its median with probability one half
        assertThat(Math.pow(Distributions.normalCdf(NormalPlot.places(11)[10]), 11))
                .isCloseTo(0.5, within(1e-12));
    }

    @Test
    void correlationDependsOnNeitherUnitNorOrder() {
        double[] values = {3, 9, 1, 4, 2};
        double[] moved = {103, 109, 101, 104, 102};
        double[] ordered = {1, 2, 3, 4, 9};
        double correlation = NormalPlot.correlation(values);
        assertThat(NormalPlot.correlation(moved)).isCloseTo(correlation, within(1e-13));
        assertThat(NormalPlot.correlation(ordered)).isCloseTo(correlation, within(1e-14));
        assertThat(correlation).isLessThan(0.95);
        assertThat(values).containsExactly(3, 9, 1, 4, 2);
    }

    @Test
    void simulatedCriticalValueFollowsTheSeed() {
        double value = NormalPlot.criticalValue(0.05, 10, 2000, 1);
        assertThat(NormalPlot.criticalValue(0.05, 10, 2000, 1)).isEqualTo(value);
        assertThat(NormalPlot.criticalValue(0.01, 10, 2000, 1)).isLessThan(value);
        // 0.917 in Filliben's table (from memory)
        assertThat(value).isCloseTo(0.917, within(0.01));
    }

    @Test
    void autocorrelationOfAlternatingReadingsIsNegative() {
        // deviations 1, -1, 1, -1: products -3, squares 4
        assertThat(Statistics.autocorrelation(new double[] {3, 1, 3, 1})).isCloseTo(-0.75, within(1e-14));
        assertThat(Statistics.autocorrelation(new double[] {1, 2, 3})).isCloseTo(0, within(1e-14));
        assertThatThrownBy(() -> Statistics.autocorrelation(new double[] {1, 1}))
                .hasMessageContaining("equal");
    }

    @Test
    void meanIntervalIsStudents() {
        Interval interval = Statistics.meanInterval(new double[] {1, 2, 3}, 0.95);
        // t at 97.5 % with 2 degrees of freedom is sqrt(2 * 0.9025 / 0.0975)
        double half = Math.sqrt(2 * 0.9025 / 0.0975) / Math.sqrt(3);
        assertThat(interval.low()).isCloseTo(2 - half, within(1e-12));
        assertThat(interval.high()).isCloseTo(2 + half, within(1e-12));
        assertThatThrownBy(() -> Statistics.meanInterval(new double[] {1, 2}, 95))
                .hasMessageContaining("confidence");
        assertThatThrownBy(() -> Statistics.meanInterval(new double[] {1}, 0.9)).hasMessageContaining("two values");
    }

    @Test
    void deviationsArePooledByTheirDegreesOfFreedom() {
        PooledDeviation pooled = PooledDeviation.pool(
                List.of(new PooledDeviation(1, 3), new PooledDeviation(2, 1), new PooledDeviation(0, 4)));
        assertThat(pooled.degreesOfFreedom()).isEqualTo(8);
        assertThat(pooled.standardDeviation()).isCloseTo(Math.sqrt(7.0 / 8), within(1e-14));
        assertThatThrownBy(() -> PooledDeviation.pool(List.of())).hasMessageContaining("nothing");
        assertThatThrownBy(() -> PooledDeviation.pool(List.of(new PooledDeviation(1, Double.POSITIVE_INFINITY))))
                .hasMessageContaining("degrees of freedom");
    }

    @Test
    void repeatabilityAtATargetIsTheLargestOfThree() {
        // target 0: s 1 up, 0 down, no reversal: 4 s up leads; target 1: s 1/1, reversal 3: 2 + 2 + 3
        BidirectionalAccuracy table = BidirectionalAccuracy.of(
                List.of(new double[] {-1, 0, 1}, new double[] {2, 3, 4}),
                List.of(new double[] {0, 0, 0}, new double[] {-1, 0, 1}));
        assertThat(table.targets()).isEqualTo(2);
        assertThat(table.repeatability(0)).isCloseTo(4, within(1e-14));
        assertThat(table.repeatability(1)).isCloseTo(7, within(1e-14));
        assertThat(table.reversal(1)).isCloseTo(3, within(1e-14));
        assertThat(table.largestReversal()).isCloseTo(3, within(1e-14));
        assertThat(table.meanReversal()).isCloseTo(1.5, within(1e-14));
    }

    @Test
    void badArgumentsAreNamed() {
        double[] two = {1, 2};
        double[] broken = {1, Double.NaN};
        assertThatThrownBy(() -> RunsTest.of(new double[] {1, 1, 1})).hasMessageContaining("median");
        assertThatThrownBy(() -> RunsTest.of(new double[0])).hasMessageContaining("median");
        assertThatThrownBy(() -> RunsTest.of(broken)).hasMessageContaining("NaN");
        assertThatThrownBy(() -> NormalPlot.places(2)).hasMessageContaining("three readings");
        assertThatThrownBy(() -> NormalPlot.correlation(new double[] {1, 1, 1})).hasMessageContaining("equal");
        assertThatThrownBy(() -> NormalPlot.correlation(two)).hasMessageContaining("three readings");
        assertThatThrownBy(() -> NormalPlot.criticalValue(0, 5, 1000, 1)).hasMessageContaining("level");
        assertThatThrownBy(() -> NormalPlot.criticalValue(0.5, 5, 999, 1)).hasMessageContaining("1000 draws");
        assertThatThrownBy(() -> NormalPlot.criticalValue(0.5, 2, 1000, 1)).hasMessageContaining("three readings");
        assertThatThrownBy(() -> BidirectionalAccuracy.of(List.of(), List.of())).hasMessageContaining("targets");
        assertThatThrownBy(() -> BidirectionalAccuracy.of(List.of(two), List.of(two, two)))
                .hasMessageContaining("1 and 2");
        assertThatThrownBy(() -> BidirectionalAccuracy.of(List.of(two), List.of(new double[] {1})))
                .hasMessageContaining("two values");
        assertThatThrownBy(() -> BidirectionalAccuracy.of(List.of(two), List.of(broken)))
                .hasMessageContaining("NaN");
    }
}
