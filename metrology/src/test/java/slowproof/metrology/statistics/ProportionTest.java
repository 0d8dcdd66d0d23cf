package slowproof.metrology.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Interval;

class ProportionTest {
    @Test
    void clopperPearsonEndsAreTheSharesThatJustExplainTheCount() {
        for (int n : new int[] {1, 7, 40}) {
            for (int k = 0; k <= n; k++) {
                Interval interval = Proportion.clopperPearson(k, n, 0.9);
                if (k > 0) {
                    BinomialDistribution low = BinomialDistribution.of(n, interval.low());
                    assertThat(low.survivalProbability(k - 1))
                            .as("%d of %d", k, n)
                            .isCloseTo(0.05, within(1e-9));
                } else {
                    assertThat(interval.low()).isZero();
                }
                if (k < n) {
                    BinomialDistribution high = BinomialDistribution.of(n, interval.high());
                    assertThat(high.cumulativeProbability(k))
                            .as("%d of %d", k, n)
                            .isCloseTo(0.05, within(1e-9));
                } else {
                    assertThat(interval.high()).isEqualTo(1);
                }
            }
        }
    }

    @Test
    void clopperPearsonCoversEveryShareAtLeastAsOftenAsStated() {
        int n = 25;
        for (double share = 0.005; share < 1; share += 0.005) {
            BinomialDistribution binomial = BinomialDistribution.of(n, share);
            double covered = 0;
            for (int k = 0; k <= n; k++) {
                covered += Proportion.clopperPearson(k, n, 0.95).contains(share) ? binomial.probability(k) : 0;
            }
            assertThat(covered).as("share %s", share).isGreaterThanOrEqualTo(0.95);
        }
    }

    @Test
    void wilsonEndsAreWhereTheScoreTestTurns() {
        Interval interval = Proportion.wilson(7, 30, 0.95);
        for (double end : new double[] {interval.low(), interval.high()}) {
            double z = (7.0 / 30 - end) / Math.sqrt(end * (1 - end) / 30);
            assertThat(Math.abs(z)).isCloseTo(1.959963984540054, within(1e-9));
        }
        Interval mirrored = Proportion.wilson(23, 30, 0.95);
        assertThat(mirrored.low()).isCloseTo(1 - interval.high(), within(1e-12));
        assertThat(Proportion.wilson(0, 10, 0.95).low()).isZero();
        assertThat(Proportion.wilson(10, 10, 0.95).high()).isEqualTo(1);
    }

    @Test
    void badArgumentsAreNamed() {
        assertThatThrownBy(() -> Proportion.clopperPearson(-1, 5, 0.9)).hasMessageContaining("successes");
        assertThatThrownBy(() -> Proportion.clopperPearson(6, 5, 0.9)).hasMessageContaining("6 of 5");
        assertThatThrownBy(() -> Proportion.clopperPearson(0, 0, 0.9)).hasMessageContaining("successes");
        assertThatThrownBy(() -> Proportion.clopperPearson(1, 5, 1)).hasMessageContaining("confidence");
        assertThatThrownBy(() -> Proportion.wilson(6, 5, 0.9)).hasMessageContaining("successes");
        assertThatThrownBy(() -> Proportion.wilson(1, 5, 95)).hasMessageContaining("confidence");
    }
}
