package slowproof.metrology.sampling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import slowproof.metrology.statistics.Statistics;

class MomentsTest {

    @Test
    void momentsOfAFewNumbersByHand() {
        Moments moments = Moments.of(new double[] {2, 4, 9});
        assertThat(moments.count()).isEqualTo(3);
        assertThat(moments.mean()).isEqualTo(5);
        assertThat(moments.squares()).isEqualTo(26);
        assertThat(moments.variance()).isEqualTo(13);
        assertThat(moments.standardDeviation()).isEqualTo(Math.sqrt(13));
    }

    @Test
    void largeCommonPartDoesNotCostDigits() {
        double[] values = new double[1001];
        for (int i = 0; i < values.length; i++) {
            values[i] = 1e9 + (i % 2 == 0 ? 0.25 : -0.25);
        }
        Moments moments = Moments.of(values);
        assertThat(moments.mean()).isCloseTo(1e9 + 0.25 / 1001, within(2e-7));
        assertThat(moments.squares()).isCloseTo(1001 * 0.0625 - 0.0625 / 1001, within(1e-9));
    }

    @Test
    void partsPutTogetherEqualTheWhole() {
        SplittableRandom random = new SplittableRandom(7);
        for (int trial = 0; trial < 200; trial++) {
            double[] values = random.doubles(50, 1000, 1001).toArray();
            int cut = random.nextInt(51);
            Moments together =
                    Moments.of(Arrays.copyOf(values, cut)).plus(Moments.of(Arrays.copyOfRange(values, cut, 50)));
            assertThat(together.count()).isEqualTo(50);
            assertThat(together.mean()).isCloseTo(Statistics.mean(values), within(1e-12));
            assertThat(together.standardDeviation()).isCloseTo(Statistics.standardDeviation(values), within(1e-12));
        }
    }

    @Test
    void nothingAddsNothing() {
        Moments some = Moments.of(new double[] {1, 2});
        assertThat(some.plus(Moments.NONE)).isEqualTo(some);
        assertThat(Moments.NONE.plus(some)).isEqualTo(some);
        assertThat(Moments.of(new double[0])).isEqualTo(Moments.NONE);
    }

    @Test
    void oneValueHasNoVariance() {
        assertThatIllegalStateException()
                .isThrownBy(() -> Moments.of(new double[] {1}).variance());
        assertThat(Moments.of(new double[] {0.1, 0.1, 0.1}).variance()).isZero();
    }
}
