package slowproof.trial.counts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class CounterRegisterTest {
    @Test
    void unsignedRegisterGoesOnWithZeroAfterItsLargestValue() {
        CounterRegister register = new CounterRegister(16, false);
        assertThat(register.step(65_535, 0)).isEqualTo(1);
        assertThat(register.step(0, 65_535)).isEqualTo(-1);
        assertThat(register.step(65_000, 500)).isEqualTo(1036);
    }

    @Test
    void signedRegisterGoesOnWithItsSmallestValue() {
        CounterRegister register = new CounterRegister(16, true);
        assertThat(register.step(32_767, -32_768)).isEqualTo(1);
        assertThat(register.step(-32_768, 32_767)).isEqualTo(-1);
        assertThat(register.holds(32_768)).isFalse();
        assertThat(register.holds(-32_768)).isTrue();
        assertThat(register.holds(Double.NaN)).isFalse();
    }

    @Test
    void registersOf24And32BitsWrapAtTheirOwnRange() {
        assertThat(new CounterRegister(24, false).step(16_777_215, 3)).isEqualTo(4);
        assertThat(new CounterRegister(32, true).step(2_147_483_647d, -2_147_483_648d))
                .isEqualTo(1);
    }

    @Test
    void anyWalkSlowerThanHalfTheRangeIsUnwrappedExactly() {
        long seed = Long.getLong("slowproof.seed", 4711L);
        SplittableRandom random = new SplittableRandom(seed);
        for (int trial = 0; trial < 300; trial++) {
            CounterRegister register = new CounterRegister(random.nextInt(4, 33), random.nextBoolean());
            long half = (long) register.range() / 2;
            long truth = random.nextLong(-half, half);
            double shown = show(register, truth);
            double unwrapped = truth;
            for (int i = 0; i < 100; i++) {
                truth += random.nextLong(-half + 1, half);
                double next = show(register, truth);
                unwrapped += register.step(shown, next);
                shown = next;
                assertThat(unwrapped).as("seed %d, %s", seed, register).isEqualTo((double) truth);
            }
        }
    }

    @Test
    void expectedStepTellsHowOftenTheRegisterWentRound() {
        CounterRegister register = new CounterRegister(16, false);
        assertThat(register.stepNear(100, 200, 3 * 65_536 + 90)).isEqualTo(3 * 65_536 + 100);
        assertThat(register.stepNear(100, 200, -2 * 65_536 + 3000)).isEqualTo(-2 * 65_536 + 100);
    }

    @Test
    void halfTheRangeIsTheLimitOfWhatCanBeFollowed() {
        CounterRegister register = new CounterRegister(16, false);
        assertThat(register.canFollow(32_767 * 0.05, 1, 0.05)).isTrue();
        assertThat(register.canFollow(32_768 * 0.05, 1, 0.05)).isFalse();
        assertThat(register.canFollow(Double.NaN, 1, 0.05)).isFalse();
    }

    @Test
    void widthsThatADoubleCannotHoldAreRefused() {
        assertThatThrownBy(() -> new CounterRegister(53, false)).hasMessageContaining("53");
        assertThatThrownBy(() -> new CounterRegister(1, false)).hasMessageContaining("2 to 52");
    }

    private static double show(CounterRegister register, long truth) {
        return Math.floorMod(truth - (long) register.smallest(), (long) register.range()) + register.smallest();
    }
}
