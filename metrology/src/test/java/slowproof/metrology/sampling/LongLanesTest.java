package slowproof.metrology.sampling;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;

class LongLanesTest {
    @Test
    void everyLaneIsTheGeneratorOfItsState() {
        SplittableRandom states = new SplittableRandom(5);
        long[] seeds = states.longs(4L * LongLanes.LANES).toArray();
        int[] at = {0};
        LongLanes lanes = new LongLanes(() -> seeds[at[0]++]);
        // the generators of Commons RNG, each from the same four values
        UniformRandomProvider[] alone = new UniformRandomProvider[LongLanes.LANES];
        for (int i = 0; i < alone.length; i++) {
            alone[i] = RandomSource.XO_SHI_RO_256_PP.create(
                    new long[] {seeds[4 * i], seeds[4 * i + 1], seeds[4 * i + 2], seeds[4 * i + 3]});
        }
        long[][] next = new long[2][LongLanes.LANES];
        for (int step = 0; step < 50; step++) {
            lanes.next(next[0], next[1]);
            for (int i = 0; i < alone.length; i++) {
                for (long[] one : next) {
                    assertThat(one[i]).isEqualTo(alone[i].nextLong());
                }
            }
        }
    }
}
