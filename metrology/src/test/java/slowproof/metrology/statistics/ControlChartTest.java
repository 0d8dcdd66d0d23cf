package slowproof.metrology.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Interval;

class ControlChartTest {
    // D. Montgomery, Introduction to Statistical Quality Control, table of two-sided CUSUM run lengths for k = 0.5
    // (from
    // memory): h = 4: 168, 26.6, 8.38, 3.34; h = 5: 465, 38.0, 10.4, 4.01 at shifts of 0, 0.5, 1, 2.
    @Test
    void cusumRunLengthsAgreeWithPublishedOnes() {
        assertThat(AverageRunLength.cusum(0, 0.5, 4)).isCloseTo(168, within(0.5));
        assertThat(AverageRunLength.cusum(0.5, 0.5, 4)).isCloseTo(26.6, within(0.05));
        assertThat(AverageRunLength.cusum(1, 0.5, 4)).isCloseTo(8.38, within(0.005));
        assertThat(AverageRunLength.cusum(2, 0.5, 4)).isCloseTo(3.34, within(0.005));
        assertThat(AverageRunLength.cusum(0, 0.5, 5)).isCloseTo(465, within(0.5));
        assertThat(AverageRunLength.cusum(0.5, 0.5, 5)).isCloseTo(38.0, within(0.05));
        assertThat(AverageRunLength.cusum(1, 0.5, 5)).isCloseTo(10.4, within(0.05));
        assertThat(AverageRunLength.cusum(2, 0.5, 5)).isCloseTo(4.01, within(0.005));
        assertThat(AverageRunLength.cusum(-1, 0.5, 5)).isCloseTo(10.4, within(0.05));
        assertThat(AverageRunLength.cusumOneSided(-3, 0.5, 5)).isInfinite();
        // one value decides when the limit is out of reach of any sum: a shift of 20 signals at once
        assertThat(AverageRunLength.cusumOneSided(20, 0.5, 5)).isCloseTo(1, within(1e-9));
    }

    // J. Lucas, M. Saccucci, Technometrics 32 (1990) 1 (from memory): schemes with a run length of 500.
    @Test
    void ewmaRunLengthsAgreeWithPublishedOnes() {
        assertThat(AverageRunLength.ewma(0, 0.1, 2.814)).isCloseTo(500, within(1.0));
        assertThat(AverageRunLength.ewma(0, 0.2, 2.962)).isCloseTo(500, within(1.0));
        assertThat(AverageRunLength.ewma(1, 0.1, 2.814)).isCloseTo(10.3, within(0.05));
        assertThat(AverageRunLength.ewma(1, 0.2, 2.962)).isCloseTo(10.5, within(0.05));
        assertThat(AverageRunLength.ewma(-1, 0.2, 2.962)).isCloseTo(10.5, within(0.05));
        // weight 1 is the plain chart: one in 370 outside three standard deviations
        assertThat(AverageRunLength.ewma(0, 1, 3)).isCloseTo(370.4, within(0.05));
        assertThat(AverageRunLength.ewma(1, 1, 3)).isCloseTo(43.9, within(0.05));
        assertThat(AverageRunLength.ewma(0, 0.9999, 3)).isCloseTo(370.4, within(0.1));
    }

    @Test
    void limitsAreSetForTheWantedRunLength() {
        double h = AverageRunLength.cusumLimit(370, 0.5);
        assertThat(AverageRunLength.cusum(0, 0.5, h)).isCloseTo(370, within(1e-4));
        // h = 4.77 for a run length of 370 (Montgomery, from memory)
        assertThat(h).isCloseTo(4.77, within(0.005));
        double factor = AverageRunLength.ewmaFactor(500, 0.1);
        assertThat(AverageRunLength.ewma(0, 0.1, factor)).isCloseTo(500, within(1e-3));
        assertThat(factor).isCloseTo(2.814, within(0.001));
    }

    @Test
    void endsOfTheRangesAreAllowed() {
        assertThat(AverageRunLength.cusum(0, 0.1, AverageRunLength.cusumLimit(10, 0.1)))
                .isCloseTo(10, within(1e-5));
        for (double allowance : new double[] {0.1, 2}) {
            double limit = AverageRunLength.cusumLimit(1e6, allowance);
            assertThat(AverageRunLength.cusum(0, allowance, limit) / 1e6).isCloseTo(1, within(1e-4));
        }
        // beyond two standard deviations on either side lies one value in 22
        assertThatThrownBy(() -> AverageRunLength.cusumLimit(20, 2)).hasMessageContaining("longer than 20");
        assertThat(AverageRunLength.ewmaFactor(1e6, 1)).isCloseTo(4.8916, within(1e-4));
        assertThat(AverageRunLength.ewma(0, 0.01, AverageRunLength.ewmaFactor(10, 0.01)))
                .isCloseTo(10, within(1e-4));
    }

    @Test
    void runLengthsAgreeWithRunsOfTheCharts() {
        long seed = 81;
        Random random = new Random(seed);
        int trials = 3000;
        double cusumSum = 0;
        double ewmaSum = 0;
        // limits of constant width: the run length of the widening ones is shorter
        double weight = 0.2;
        double limit = 2.5 * Math.sqrt(weight / (2 - weight));
        for (int trial = 0; trial < trials; trial++) {
            double up = 0;
            double down = 0;
            int count = 0;
            do {
                double x = 0.8 + random.nextGaussian();
                up = Math.max(0, up + x - 0.4);
                down = Math.max(0, down - x - 0.4);
                count++;
            } while (up <= 3 && down <= 3);
            cusumSum += count;
            double z = 0;
            count = 0;
            do {
                z += weight * (0.8 + random.nextGaussian() - z);
                count++;
            } while (Math.abs(z) <= limit);
            ewmaSum += count;
        }
        assertThat(cusumSum / trials).as("seed %d", seed).isCloseTo(AverageRunLength.cusum(0.8, 0.4, 3), within(0.4));
        assertThat(ewmaSum / trials).as("seed %d", seed).isCloseTo(AverageRunLength.ewma(0.8, 0.2, 2.5), within(0.5));
    }

    @Test
    void cusumSumsWhatLiesBeyondTheAllowance() {
        Cusum chart = Cusum.of(new double[] {11, 12, 8, 7, 6}, 10, 0.5, 5);
        assertThat(new double[] {chart.high(0), chart.high(1), chart.high(2), chart.high(3)})
                .containsExactly(0.5, 2, 0, 0);
        assertThat(new double[] {chart.low(0), chart.low(1), chart.low(2), chart.low(3), chart.low(4)})
                .containsExactly(0, 0, 1.5, 4, 7.5);
        assertThat(chart.firstSignal()).hasValue(4);
        assertThat(Cusum.of(new double[] {11, 12}, 10, 0.5, 2).firstSignal()).isEmpty();
        assertThat(Cusum.of(new double[] {11, 12}, 10, 0.5, 1.9).firstSignal()).hasValue(1);
    }

    @Test
    void ewmaFollowsItsRecursionAndItsWideningLimits() {
        Ewma chart = Ewma.of(new double[] {12, 10, 14}, 10, 2, 0.25, 3);
        assertThat(chart.average(0)).isCloseTo(10.5, within(1e-14));
        assertThat(chart.average(1)).isCloseTo(10.375, within(1e-14));
        assertThat(chart.average(2)).isCloseTo(11.28125, within(1e-14));
        // after one value the average scatters by weight * sigma
        Interval first = chart.limits(0);
        assertThat(first.centre()).isCloseTo(10, within(1e-14));
        assertThat(first.width() / 2).isCloseTo(3 * 0.25 * 2, within(1e-14));
        Interval second = chart.limits(1);
        assertThat(second.width() / 2).isCloseTo(3 * 2 * 0.25 * Math.sqrt(1 + 0.5625), within(1e-14));
        assertThat(chart.limits(1000).width() / 2).isCloseTo(6 * Math.sqrt(1.0 / 7), within(1e-12));
        assertThat(chart.firstSignal()).isEmpty();
        assertThat(Ewma.of(new double[] {10, 30}, 10, 2, 0.25, 3).firstSignal()).hasValue(1);
    }

    @Test
    void constantsAreUnbiased() {
        long seed = 82;
        Random random = new Random(seed);
        double deviations = 0;
        double ranges = 0;
        double squares = 0;
        int trials = 40_000;
        for (int trial = 0; trial < trials; trial++) {
            double[] values = {
                random.nextGaussian(), random.nextGaussian(), random.nextGaussian(), random.nextGaussian()
            };
            Arrays.sort(values);
            double range = values[3] - values[0];
            deviations += Statistics.standardDeviation(values);
            ranges += range;
            squares += range * range;
        }
        double mean = ranges / trials;
        assertThat(deviations / trials).as("seed %d", seed).isCloseTo(ControlChartConstants.c4(4), within(0.008));
        assertThat(mean).as("seed %d", seed).isCloseTo(ControlChartConstants.d2(4), within(0.02));
        assertThat(Math.sqrt(squares / trials - mean * mean))
                .as("seed %d", seed)
                .isCloseTo(ControlChartConstants.d3(4), within(0.015));
    }

    @Test
    void badArgumentsAreNamed() {
        double[] values = {1, 2};
        double[] broken = {1, Double.NaN};
        assertThatThrownBy(() -> Cusum.of(broken, 1, 1, 1)).hasMessageContaining("NaN");
        assertThatThrownBy(() -> Cusum.of(values, Double.NaN, 1, 1)).hasMessageContaining("target");
        assertThatThrownBy(() -> Cusum.of(values, 1, -1, 1)).hasMessageContaining("allowance");
        assertThatThrownBy(() -> Cusum.of(values, 1, 1, 0)).hasMessageContaining("limit");
        assertThatThrownBy(() -> Ewma.of(broken, 1, 1, 0.5, 3)).hasMessageContaining("NaN");
        assertThatThrownBy(() -> Ewma.of(values, Double.NaN, 1, 0.5, 3)).hasMessageContaining("target");
        assertThatThrownBy(() -> Ewma.of(values, 1, 0, 0.5, 3)).hasMessageContaining("standard deviation");
        assertThatThrownBy(() -> Ewma.of(values, 1, 1, 0, 3)).hasMessageContaining("weight");
        assertThatThrownBy(() -> Ewma.of(values, 1, 1, 1.1, 3)).hasMessageContaining("weight");
        assertThatThrownBy(() -> Ewma.of(values, 1, 1, 0.5, 0)).hasMessageContaining("factor");
        assertThatThrownBy(() -> AverageRunLength.cusum(Double.NaN, 1, 1)).hasMessageContaining("shift");
        assertThatThrownBy(() -> AverageRunLength.cusum(0, -1, 1)).hasMessageContaining("allowance");
        assertThatThrownBy(() -> AverageRunLength.cusum(0, 1, 0)).hasMessageContaining("limit");
        assertThatThrownBy(() -> AverageRunLength.ewma(Double.NaN, 0.5, 3)).hasMessageContaining("shift");
        assertThatThrownBy(() -> AverageRunLength.ewma(0, 0, 3)).hasMessageContaining("weight");
        assertThatThrownBy(() -> AverageRunLength.ewma(0, 0.5, 0)).hasMessageContaining("factor");
        assertThatThrownBy(() -> AverageRunLength.cusumLimit(9, 0.5)).hasMessageContaining("run length");
        assertThatThrownBy(() -> AverageRunLength.cusumLimit(2e6, 0.5)).hasMessageContaining("run length");
        assertThatThrownBy(() -> AverageRunLength.cusumLimit(370, 0.05)).hasMessageContaining("allowance");
        assertThatThrownBy(() -> AverageRunLength.cusumLimit(370, 3)).hasMessageContaining("allowance");
        assertThatThrownBy(() -> AverageRunLength.ewmaFactor(9, 0.5)).hasMessageContaining("run length");
        assertThatThrownBy(() -> AverageRunLength.ewmaFactor(370, 0.001)).hasMessageContaining("weight");
        assertThatThrownBy(() -> AverageRunLength.ewmaFactor(370, 1.1)).hasMessageContaining("weight");
        assertThatThrownBy(() -> ControlChartConstants.c4(1)).hasMessageContaining("two readings");
        assertThatThrownBy(() -> ControlChartConstants.d2(1)).hasMessageContaining("two readings");
        assertThatThrownBy(() -> ControlChartConstants.d3(1)).hasMessageContaining("two readings");
    }
}
