package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import slowproof.trial.recording.Rests.Rest;

class RestsTest {
    private static final long SEED = 31;

    /** The definition itself: every window within the width and of the length; touching ones are one. */
    private static List<Rest> byDefinition(double[] time, double[] position, double width, double length) {
        List<Rest> rests = new ArrayList<>();
        int first = -1;
        int last = -1;
        for (int right = 0; right < time.length; right++) {
            int left = right;
            double low = position[right];
            double high = low;
            while (left > 0) {
                double lower = Math.min(low, position[left - 1]);
                double higher = Math.max(high, position[left - 1]);
                if (higher - lower > width) {
                    break;
                }
                low = lower;
                high = higher;
                left--;
            }
            if (time[right] - time[left] >= length) {
                if (first >= 0 && left > last) {
                    rests.add(new Rest(first, last));
                    first = -1;
                }
                first = first < 0 ? left : first;
                last = right;
            }
        }
        if (first >= 0) {
            rests.add(new Rest(first, last));
        }
        return rests;
    }

    @Test
    void probesMissNoStretchThatTheDefinitionFinds() {
        search(3000, 120, 6, 1);
    }

    @Test
    void blocksThatFitInHideNothing() {
        search(300, 2500, 150, 12);
    }

    private static void search(int trials, int mostRows, int oftenStill, double longer) {
        SplittableRandom random = new SplittableRandom(SEED);
        int found = 0;
        for (int trial = 0; trial < trials; trial++) {
            int rows = random.nextInt(1, mostRows);
            double silence = random.nextInt(4) == 0 ? 2 : 0;
            double[] time = new double[rows];
            double[] position = new double[rows];
            double speed = 0;
            for (int i = 1; i < rows; i++) {
                boolean still = random.nextInt(oftenStill) == 0;
                speed = still ? 0 : random.nextInt(oftenStill + 2) == 0 ? random.nextDouble() * 40 - 20 : speed;
                double step = 0.02 * (0.2 + random.nextDouble()) + (random.nextInt(10) == 0 ? silence : 0);
                time[i] = time[i - 1] + step;
                position[i] = position[i - 1] + speed * step + 0.02 * (random.nextDouble() - 0.5);
            }
            double width = 0.02 + 0.3 * random.nextDouble();
            double length = 0.05 + longer * 0.7 * random.nextDouble();
            List<Rest> rests = byDefinition(time, position, width, length);
            found += rests.size();
            assertThat(Rests.find(Column.copyOf(time), Column.copyOf(position), 0, rows, width, length))
                    .as("seed %d, trial %d", SEED, trial)
                    .isEqualTo(rests);
        }
        assertThat(found).isGreaterThan(trials / 3);
    }
}
