package slowproof.trial.counts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class SpeedEstimateTest {
    private static final long SEED = Long.getLong("slowproof.seed", 12);

    @Test
    void statedUncertaintyOfAGateIsThatOfRandomPhases() {
        // sd = q / (T sqrt 6) = 0.408 q / T, as a simulation of rounded counts gives
        SplittableRandom random = new SplittableRandom(SEED);
        double q = 0.05;
        double gate = 0.1;
        double sum = 0;
        int trials = 200_000;
        for (int i = 0; i < trials; i++) {
            double speed = 5 + 20 * random.nextDouble();
            double start = random.nextDouble() * q;
            double counts = Math.floor((start + speed * gate) / q) - Math.floor(start / q);
            double error = SpeedEstimate.gate(counts, q, gate).speedMmPerS() - speed;
            sum += error * error;
        }
        double stated = SpeedEstimate.gate(1, q, gate).standardUncertaintyMmPerS();
        assertThat(Math.sqrt(sum / trials)).as("seed %d", SEED).isCloseTo(stated, within(0.01 * stated));
        assertThat(stated).isCloseTo(0.408 * q / gate, within(0.001 * q / gate));
    }

    @Test
    void statedUncertaintyOfEdgesIsThatOfRandomTicks() {
        SplittableRandom random = new SplittableRandom(SEED);
        double q = 0.05;
        double tick = 0.001;
        double sum = 0;
        int trials = 200_000;
        double speed = 2;
        for (int i = 0; i < trials; i++) {
            // two edges, eight counts apart, each seen at the next tick
            double first = random.nextDouble();
            double last = first + 8 * q / speed * (1 + 0.01 * random.nextDouble());
            double truth = 8 * q / (last - first);
            double seen = tick * (Math.ceil(last / tick) - Math.ceil(first / tick));
            double error = SpeedEstimate.edges(8, q, seen, tick).speedMmPerS() / truth - 1;
            sum += error * error;
        }
        double stated = SpeedEstimate.edges(8, q, 8 * q / speed, tick).standardUncertaintyMmPerS() / speed;
        assertThat(Math.sqrt(sum / trials)).as("seed %d", SEED).isCloseTo(stated, within(0.02 * stated));
    }

    @Test
    void theBetterWayChangesAtItsCrossing() {
        double q = 0.05;
        double gate = 0.1;
        double tick = 0.001;
        // q / sqrt(T c) = 0.05 / sqrt(0.1 x 0.001)
        double crossing = SpeedEstimate.crossingMmPerS(q, gate, tick);
        assertThat(crossing).isCloseTo(5, within(1e-12));
        for (double speed : new double[] {0.5 * crossing, 2 * crossing}) {
            SpeedEstimate byGate = SpeedEstimate.gate(speed * gate / q, q, gate);
            // a single period between neighbouring edges
            SpeedEstimate byEdges = SpeedEstimate.edges(1, q, q / speed, tick);
            assertThat(byGate.or(byEdges).way())
                    .isEqualTo(speed < crossing ? SpeedEstimate.Way.EDGES : SpeedEstimate.Way.GATE);
        }
    }
}
