package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import slowproof.trial.recording.Legs.Leg;

class LegsTest {
    private static final long SEED = 8;

    /** The definition itself, row by row. */
    private static List<Leg> byDefinition(double[] position, int from, int to, double threshold) {
        List<Leg> legs = new ArrayList<>();
        int turn = from;
        int extreme = from;
        int sense = 0;
        for (int i = from + 1; i <= to; i++) {
            if (sense == 0 && Math.abs(position[i] - position[turn]) >= threshold) {
                sense = position[i] > position[turn] ? 1 : -1;
                extreme = i;
            } else if (sense != 0 && sense * (position[i] - position[extreme]) > 0) {
                extreme = i;
            } else if (sense != 0 && sense * (position[extreme] - position[i]) >= threshold) {
                legs.add(new Leg(turn, extreme, position[extreme] - position[turn]));
                turn = extreme;
                sense = -sense;
                extreme = i;
            }
        }
        if (sense != 0) {
            legs.add(new Leg(turn, to, position[to] - position[turn]));
        }
        return legs;
    }

    @Test
    void blocksPassedOverHideNoTurningPoint() {
        SplittableRandom random = new SplittableRandom(SEED);
        int turns = 0;
        for (int trial = 0; trial < 300; trial++) {
            double[] position = new double[random.nextInt(2, 3000)];
            double speed = 0;
            for (int i = 1; i < position.length; i++) {
                speed = random.nextInt(200) == 0 ? 2 * random.nextDouble() - 1 : speed;
                position[i] = position[i - 1] + speed + Math.rint(10 * random.nextDouble() - 5) / 50;
            }
            int from = random.nextInt(position.length - 1);
            int to = random.nextInt(from + 1, position.length);
            double threshold = 0.2 + 5 * random.nextDouble();
            List<Leg> legs = byDefinition(position, from, to, threshold);
            turns += Math.max(legs.size() - 1, 0);
            assertThat(Legs.find(Column.copyOf(position), from, to, threshold))
                    .as("seed %d, trial %d", SEED, trial)
                    .isEqualTo(legs);
        }
        assertThat(turns).isGreaterThan(200);
    }
}
