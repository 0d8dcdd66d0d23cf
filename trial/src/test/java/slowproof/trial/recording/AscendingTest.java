package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class AscendingTest {
    private static final long SEED = 12;

    @Test
    void findsTheFirstRowThatIsLateEnoughWhateverWasFoundBefore() {
        SplittableRandom random = new SplittableRandom(SEED);
        for (int trial = 0; trial < 200; trial++) {
            double[] time = new double[random.nextInt(1, 300)];
            for (int i = 1; i < time.length; i++) {
                double silence = random.nextInt(30) == 0 ? 5 * random.nextDouble() : 0;
                time[i] = time[i - 1] + 0.01 + 0.02 * random.nextDouble() + silence;
            }
            int to = random.nextInt(1, time.length + 1);
            Ascending rows = new Ascending(Column.copyOf(time), to);
            for (int look = 0; look < 40; look++) {
                int row = random.nextInt(to);
                double length = 0.001 + 3 * random.nextDouble() * random.nextDouble();
                int expected = row + 1;
                while (expected < to && time[expected] - time[row] < length) {
                    expected++;
                }
                assertThat(rows.firstAfter(row, length))
                        .as("seed %d, trial %d", SEED, trial)
                        .isEqualTo(expected);
                int at = row + 1;
                while (at < to && time[at] < time[row] + length) {
                    at++;
                }
                assertThat(rows.firstAt(row, time[row] + length)).isEqualTo(at);
            }
        }
    }
}
