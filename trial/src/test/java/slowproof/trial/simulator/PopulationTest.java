package slowproof.trial.simulator;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class PopulationTest {
    private static final long SEED = Long.getLong("slowproof.seed", 71);

    @Test
    void everyDrawLiesInTheStatedRangesWithAFloorInsideTheLadder() {
        Set<CurveShape> shapes = EnumSet.noneOf(CurveShape.class);
        int over = 0;
        for (int i = 0; i < 300; i++) {
            Population.Sample s = Population.draw(RandomStreams.of(SEED).trial(i));
            KneeCurve curve = s.curve();
            shapes.add(curve.shape());
            over += curve.depthRatio() > 0 ? 1 : 0;
            assertThat(curve.kneeMmPerS()).isBetween(10.0, 150.0);
            assertThat(curve.kneeWidthShare()).isBetween(0.05, 0.25);
            assertThat(Math.abs(curve.depthRatio())).isBetween(0.005, 0.06);
            assertThat(curve.scaleErrorRatio()).isBetween(-0.001, 0.001);
            assertThat(s.limitRatio()).isBetween(0.001, 0.003);
            assertThat(s.strokeMm()).isBetween(900.0, 1200.0);
            assertThat(s.accelerationMmPerS2()).isBetween(300.0, 1000.0);
            assertThat(s.material().startScatterMm()).isBetween(0.01, 0.1);
            assertThat(s.material().travelScatterMmPerSqrtM()).isBetween(0.006, 0.03);
            assertThat(s.floorMmPerS()).as("seed %s trial %s", SEED, i).isBetween(8.0, 400.0);
            assertThat(Math.abs(curve.at(s.floorMmPerS() * 1.0001))).isLessThanOrEqualTo(s.limitRatio());
            assertThat(Math.abs(curve.at(s.floorMmPerS() / 1.0001))).isGreaterThan(s.limitRatio());
        }
        assertThat(shapes).hasSize(5);
        assertThat(over).isBetween(100, 200);
    }

    @Test
    void resultsDoNotDependOnThreadsOrOrder() {
        List<BenchReadings> alone =
                IntStream.range(0, 40).mapToObj(PopulationTest::bench).toList();
        List<BenchReadings> together = IntStream.range(0, 40)
                .parallel()
                .mapToObj(PopulationTest::bench)
                .toList();
        assertThat(together).isEqualTo(alone);
        assertThat(bench(17)).isEqualTo(alone.get(17));
    }

    private static BenchReadings bench(int trial) {
        Population.Sample sample = Population.draw(RandomStreams.of(SEED).trial(trial));
        return Bench.read(sample.plan(List.of(30.0, 100.0, 400.0), 2), sample.streams());
    }

    @Test
    void limitThatHoldsThroughoutHasNoFloorInTheLadder() {
        for (int i = 0; i < 300; i++) {
            Population.Sample s =
                    Population.drawHoldingThroughout(RandomStreams.of(SEED).trial(i));
            assertThat(s.floorMmPerS()).as("seed %s trial %s", SEED, i).isZero();
        }
    }

    @Test
    void limitThatHoldsNowhereIsBrokenAtEverySpeed() {
        for (int i = 0; i < 300; i++) {
            Population.Sample s =
                    Population.drawHoldingNowhere(RandomStreams.of(SEED).trial(i));
            assertThat(s.floorMmPerS()).as("seed %s trial %s", SEED, i).isInfinite();
            for (double v = 8; v <= 400; v *= 1.05) {
                assertThat(Math.abs(s.curve().at(v))).isGreaterThan(1.19 * s.limitRatio());
            }
        }
    }

    @Test
    void standardPlanHasEighteenSpeedsOfTenPasses() {
        BenchReadings bench = Population.draw(RandomStreams.of(SEED)).read();
        assertThat(bench.passes()).hasSize(180);
        assertThat(bench.readings()).hasSize(198);
    }
}
