package slowproof.metrology.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Interval;

class SortedDrawsTest {

    private static double[] range(int n) {
        return IntStream.rangeClosed(1, n).mapToDouble(i -> i).toArray();
    }

    private static MonteCarloResult result(double... sorted) {
        return new MonteCarloResult(0, 1, 0.5, true, sorted);
    }

    @Test
    void symmetricIntervalLeavesAsManyBelowAsAbove() {
        // M = 100, p = 0.95: q = 95, r = (100 - 95 + 1)/2 = 3: values 3 and 98 (JCGM 101:2008, 7.7, from memory)
        assertThat(SortedDraws.symmetric(range(100), 0.95)).isEqualTo(new Interval(3, 98));
        // q = 90, r = 5
        assertThat(SortedDraws.symmetric(range(100), 0.9)).isEqualTo(new Interval(5, 95));
        // 10^4 values: 250 and 9750
        assertThat(SortedDraws.symmetric(range(10_000), 0.95)).isEqualTo(new Interval(250, 9750));
    }

    @Test
    void shortestIntervalIsTheNarrowestOne() {
        double[] lopsided = {0, 10, 11, 11.5, 12, 12.25, 12.5, 20, 30, 40};
        // half of ten values: five steps
        assertThat(SortedDraws.shortest(lopsided, 0.5)).isEqualTo(new Interval(10, 12.5));
        assertThat(SortedDraws.of(IntervalKind.SHORTEST, lopsided, 0.5)).isEqualTo(new Interval(10, 12.5));
        assertThat(SortedDraws.of(IntervalKind.SYMMETRIC, lopsided, 0.5))
                .isEqualTo(SortedDraws.symmetric(lopsided, 0.5));
        // the last possible place
        assertThat(SortedDraws.shortest(new double[] {0, 5, 9, 12}, 0.5)).isEqualTo(new Interval(5, 12));
        // the first of equals
        assertThat(SortedDraws.shortest(range(10), 0.5)).isEqualTo(new Interval(1, 6));
    }

    @Test
    void aHandfulOfValuesGivesTheirRange() {
        assertThat(SortedDraws.symmetric(range(3), 0.999)).isEqualTo(new Interval(1, 3));
        assertThat(SortedDraws.shortest(range(3), 0.999)).isEqualTo(new Interval(1, 3));
        assertThat(SortedDraws.symmetric(range(2), 0.5)).isEqualTo(new Interval(1, 2));
    }

    @Test
    void quantilesAreInterpolated() {
        MonteCarloResult result = result(10, 20, 30, 40);
        assertThat(result.quantile(0.5)).isCloseTo(25, within(1e-12));
        assertThat(result.quantile(0.375)).isCloseTo(20, within(1e-12));
        assertThat(result.quantile(0.125)).isCloseTo(10, within(1e-12));
        assertThat(result.quantile(0.01)).isCloseTo(10, within(1e-12));
        assertThat(result.quantile(0.99)).isCloseTo(40, within(1e-12));
        assertThatIllegalArgumentException().isThrownBy(() -> result.quantile(1));
    }

    @Test
    void shareCountsBothEnds() {
        MonteCarloResult result = result(10, 20, 20, 30, 40);
        assertThat(result.shareWithin(new Interval(20, 30))).isEqualTo(0.6);
        assertThat(result.shareWithin(new Interval(20, 20))).isEqualTo(0.4);
        assertThat(result.shareWithin(new Interval(Double.NEGATIVE_INFINITY, 20)))
                .isEqualTo(0.6);
        assertThat(result.shareWithin(new Interval(21, Double.POSITIVE_INFINITY)))
                .isEqualTo(0.4);
        assertThat(result.shareWithin(new Interval(21, 29))).isZero();
    }

    @Test
    void anyProbabilityMayBeAskedAfterwards() {
        MonteCarloResult result = result(range(100));
        assertThat(result.interval(IntervalKind.SYMMETRIC)).isEqualTo(new Interval(25, 75));
        assertThat(result.interval(IntervalKind.SYMMETRIC, 0.9)).isEqualTo(new Interval(5, 95));
        assertThat(result.interval(IntervalKind.SHORTEST, 0.9)).isEqualTo(new Interval(1, 91));
        assertThatIllegalArgumentException().isThrownBy(() -> result.interval(IntervalKind.SYMMETRIC, 1.5));
    }
}
