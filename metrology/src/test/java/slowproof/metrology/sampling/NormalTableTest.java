package slowproof.metrology.sampling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;

class NormalTableTest {
    private static final int SOME = 1 << 22;

    private static double[] drawn(long seed) {
        UniformRandomProvider random = RandomSource.XO_SHI_RO_256_PP.create(seed);
        double[] values = new double[SOME];
        for (int i = 0; i < SOME; i++) {
            values[i] = NormalTable.normal(random.nextLong(), random);
        }
        return values;
    }

    @Test
    void momentsAreThoseOfTheNormalDistribution() {
        double[] sums = new double[5];
        for (double value : drawn(1)) {
            for (int k = 1; k <= 4; k++) {
                sums[k] += Math.pow(value, k) / SOME;
            }
        }
        // 0, 1, 0, 3, each within four of its standard errors: variances 1, 2, 15, 96 over the number
        assertThat(sums[1]).isCloseTo(0, within(4 * Math.sqrt(1.0 / SOME)));
        assertThat(sums[2]).isCloseTo(1, within(4 * Math.sqrt(2.0 / SOME)));
        assertThat(sums[3]).isCloseTo(0, within(4 * Math.sqrt(15.0 / SOME)));
        assertThat(sums[4]).isCloseTo(3, within(4 * Math.sqrt(96.0 / SOME)));
    }

    @Test
    void everyPartOfTheDistributionHasItsShare() {
        int parts = 2000;
        int[] counts = new int[parts];
        for (double value : drawn(2)) {
            counts[(int) Math.min(parts - 1, parts * Distributions.normalCdf(value))]++;
        }
        double chiSquared = 0;
        double wanted = (double) SOME / parts;
        for (int count : counts) {
            chiSquared += (count - wanted) * (count - wanted) / wanted;
        }
        assertThat(chiSquared)
                .isBetween(
                        Distributions.chiSquaredQuantile(0.0005, parts - 1),
                        Distributions.chiSquaredQuantile(0.9995, parts - 1));
    }

    @Test
    void bothTailsHaveTheirShare() {
        double[] values = drawn(3);
        // the last layer begins at 4.04: on either side of it
        for (double edge : new double[] {2, 3, 3.5, 4, 4.2, 4.5}) {
            double wanted = SOME * Distributions.normalCdf(-edge);
            int above = 0;
            int below = 0;
            for (double value : values) {
                above += value > edge ? 1 : 0;
                below += value < -edge ? 1 : 0;
            }
            assertThat((double) above).as("above %s", edge).isCloseTo(wanted, within(4 * Math.sqrt(wanted) + 1));
            assertThat((double) below).as("below %s", edge).isCloseTo(wanted, within(4 * Math.sqrt(wanted) + 1));
        }
    }

    @Test
    void scaledValuesAreAddedToTheStretchAsked() {
        UniformRandomProvider random = RandomSource.XO_SHI_RO_256_PP.create(4);
        long[] bits = random.longs(8).toArray();
        double[] sum = {1, 1, 1, 1, 1, 1, 1, 1};
        NormalTable.add(sum, 2, 5, 0.5, bits, RandomSource.XO_SHI_RO_256_PP.create(5));
        UniformRandomProvider same = RandomSource.XO_SHI_RO_256_PP.create(5);
        for (int i = 0; i < sum.length; i++) {
            assertThat(sum[i]).isEqualTo(i < 2 || i >= 5 ? 1 : 1 + 0.5 * NormalTable.normal(bits[i], same));
        }
    }
}
