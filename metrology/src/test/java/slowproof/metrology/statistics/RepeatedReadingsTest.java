package slowproof.metrology.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Interval;

class RepeatedReadingsTest {

    @Test
    void largeCommonPartDoesNotCostDigits() {
        // NIST StRD NumAcc4: 10000000.2, then 500 times the pair 10000000.1, 10000000.3; mean 10000000.2, s 0.1
        double[] values = new double[1001];
        values[0] = 10000000.2;
        for (int i = 1; i < 1001; i++) {
            values[i] = i % 2 == 1 ? 10000000.1 : 10000000.3;
        }
        assertThat(Statistics.mean(values)).isCloseTo(10000000.2, within(2e-9));
        // the data themselves are rounded to 2e-9 in doubles
        assertThat(Statistics.standardDeviation(values)).isCloseTo(0.1, within(1e-9));
    }

    @Test
    void equalReadingsHaveNoScatterAtAll() {
        assertThat(Statistics.standardDeviation(new double[] {0.1, 0.1, 0.1})).isZero();
        assertThat(Statistics.mean(new double[] {0.1, 0.1, 0.1})).isEqualTo(0.1);
    }

    @Test
    void oneReadingGivesNoRepeatability() {
        assertThatIllegalArgumentException().isThrownBy(() -> Statistics.standardDeviation(new double[] {1}));
        assertThatIllegalArgumentException().isThrownBy(() -> Statistics.mean(new double[0]));
        assertThatIllegalArgumentException().isThrownBy(() -> Statistics.mean(new double[] {1, Double.NaN}));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Statistics.standardDeviation(new double[] {1, Double.NaN}));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> PooledDeviation.of(List.of(new double[] {1}, new double[] {2})));
        assertThatIllegalArgumentException().isThrownBy(() -> PooledDeviation.of(List.of()));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> PooledDeviation.of(List.of(new double[] {1, 2}, new double[] {Double.NaN})));
    }

    @Test
    void groupsArePooledByDegreesOfFreedom() {
        // by hand: (2 * 0.0001 + 1 * 0.00045)/3 = 0.00021667, root 0.014720
        PooledDeviation pooled = PooledDeviation.of(
                List.of(new double[] {0.10, 0.12, 0.11}, new double[] {0.20, 0.23}, new double[] {7}, new double[0]));
        assertThat(pooled.standardDeviation()).isCloseTo(0.01471960144387974, within(1e-14));
        assertThat(pooled.degreesOfFreedom()).isEqualTo(3);
    }

    @Test
    void intervalOfTheScatterComesFromChiSquared() {
        // 9 degrees of freedom: factors sqrt(9/19.0228) = 0.688 and sqrt(9/2.70039) = 1.826 (tables)
        Interval interval = new PooledDeviation(2, 9).interval(0.95);
        assertThat(interval.low()).isCloseTo(2 * Math.sqrt(9 / 19.022767798641635), within(1e-9));
        assertThat(interval.high()).isCloseTo(2 * Math.sqrt(9 / 2.700389499980358), within(1e-9));
        assertThat(new PooledDeviation(2, Double.POSITIVE_INFINITY).interval(0.95))
                .isEqualTo(new Interval(2, 2));
        assertThatIllegalArgumentException().isThrownBy(() -> new PooledDeviation(2, 9).interval(95));
        assertThatIllegalArgumentException().isThrownBy(() -> new PooledDeviation(-2, 9));
        assertThatIllegalArgumentException().isThrownBy(() -> new PooledDeviation(2, 0));
    }

    @Test
    void criticalValuesOfCochranAreThoseOfTheTable() {
        // ISO 5725-2:1994 table 4, from memory; each is reproduced from the F distribution
        assertThat(Cochran.criticalValue(0.05, 5, 3)).isCloseTo(0.684, within(0.001));
        assertThat(Cochran.criticalValue(0.01, 5, 3)).isCloseTo(0.788, within(0.001));
        assertThat(Cochran.criticalValue(0.05, 8, 4)).isCloseTo(0.438, within(0.001));
        assertThat(Cochran.criticalValue(0.05, 9, 3)).isCloseTo(0.478, within(0.001));
    }

    @Test
    void cochranComparesTheLargestVarianceWithTheSum() {
        assertThat(Cochran.statistic(new double[] {1, 5, 2})).isCloseTo(0.625, within(1e-15));
        assertThat(Cochran.statistic(new double[] {0, 0, 0, 0})).isEqualTo(0.25);
        assertThat(Cochran.statistic(new double[] {1e308, 1e308})).isEqualTo(0.5);
        assertThatIllegalArgumentException().isThrownBy(() -> Cochran.statistic(new double[] {1}));
        assertThatIllegalArgumentException().isThrownBy(() -> Cochran.statistic(new double[] {1, -1}));
        assertThatIllegalArgumentException().isThrownBy(() -> Cochran.criticalValue(0.05, 1, 2));
        assertThatIllegalArgumentException().isThrownBy(() -> Cochran.criticalValue(0.05, 2, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> Cochran.criticalValue(5, 2, 2));
    }

    @Test
    void criticalValuesOfGrubbsAreThoseOfTheTable() {
        // ISO 5725-2:1994 table 5, one largest or smallest, from memory; each is reproduced from Student's t
        assertThat(Grubbs.criticalValue(0.05, 3)).isCloseTo(1.155, within(0.001));
        assertThat(Grubbs.criticalValue(0.05, 8)).isCloseTo(2.126, within(0.001));
        assertThat(Grubbs.criticalValue(0.01, 8)).isCloseTo(2.274, within(0.001));
        assertThat(Grubbs.criticalValue(0.05, 20)).isCloseTo(2.709, within(0.001));
    }

    @Test
    void grubbsFindsTheFarthestValueOnEitherSide() {
        Grubbs.Farthest farthest = Grubbs.statistic(new double[] {1, 2, 3, -20, 2});
        assertThat(farthest.index()).isEqualTo(3);
        // mean -2.4, s = sqrt(389.2/4)
        assertThat(farthest.statistic()).isCloseTo(17.6 / Math.sqrt(389.2 / 4), within(1e-12));
        assertThat(Grubbs.statistic(new double[] {1, 2, 3, 20}).index()).isEqualTo(3);
        assertThat(Grubbs.statistic(new double[] {4, 4, 4})).isEqualTo(new Grubbs.Farthest(0, 0));
        assertThatIllegalArgumentException().isThrownBy(() -> Grubbs.statistic(new double[] {1, 2}));
        assertThatIllegalArgumentException().isThrownBy(() -> Grubbs.criticalValue(0.05, 2));
        assertThatIllegalArgumentException().isThrownBy(() -> Grubbs.criticalValue(0, 5));
    }
}
