package slowproof.trial.counts;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import slowproof.trial.counts.Quadrature.Evaluation;

class QuadratureTest {
    /** Levels of phase p: A is high in phases 1 and 2, B in 2 and 3. */
    private static boolean show(Quadrature decoder, long phase) {
        int p = (int) Math.floorMod(phase, 4L);
        return decoder.accept(p == 1 || p == 2, p == 2 || p == 3);
    }

    @Test
    void everyEvaluationCountsItsShareOfAPeriod() {
        for (Evaluation evaluation : Evaluation.values()) {
            Quadrature decoder = new Quadrature(evaluation);
            for (int phase = 0; phase <= 40; phase++) {
                assertThat(show(decoder, phase)).isTrue();
            }
            assertThat(decoder.count()).isEqualTo(10L * evaluation.countsPerPeriod());
            assertThat(decoder.edges()).isEqualTo(40);
        }
    }

    @Test
    void anyLegalWalkIsCountedExactlyAndComesBackToItsStart() {
        long seed = Long.getLong("slowproof.seed", 99L);
        SplittableRandom random = new SplittableRandom(seed);
        for (Evaluation evaluation : Evaluation.values()) {
            Quadrature decoder = new Quadrature(evaluation);
            long phase = 0;
            show(decoder, phase);
            for (int i = 0; i < 10_000; i++) {
                phase += random.nextInt(-1, 2);
                show(decoder, phase);
                // edges at phase 1/2 boundaries: x4 counts each, x2 the odd ones, x1 every fourth
                long expected = switch (evaluation) {
                    case X4 -> phase;
                    case X2 -> Math.floorDiv(phase + 1, 2L);
                    case X1 -> Math.floorDiv(phase + 3, 4L);
                };
                assertThat(decoder.count()).as("seed %d", seed).isEqualTo(expected);
            }
            assertThat(decoder.illegalTransitions()).isZero();
        }
    }

    @Test
    void bothChannelsAtOnceIsReportedAndAddsNothing() {
        Quadrature decoder = new Quadrature(Evaluation.X4);
        show(decoder, 0);
        show(decoder, 1);
        assertThat(show(decoder, 3)).isFalse();
        assertThat(decoder.count()).isEqualTo(1);
        assertThat(decoder.illegalTransitions()).isEqualTo(1);
        assertThat(show(decoder, 4)).isTrue();
        assertThat(decoder.count()).isEqualTo(2);
    }

    @Test
    void fourMissedEdgesLeaveNoTraceButTheRateShowsThem() {
        Quadrature decoder = new Quadrature(Evaluation.X4);
        for (int phase = 0; phase < 400; phase += 4) {
            show(decoder, phase);
        }
        assertThat(decoder.count()).isZero();
        assertThat(decoder.illegalTransitions()).isZero();
        // 4 edges of 0.05 mm in each millisecond are 200 mm/s
        assertThat(CountingRate.edgesPerSample(200, 0.05, Evaluation.X4, 0.001)).isEqualTo(4);
    }

    @Test
    void channelFrequencyIsAQuarterOfTheCountRate() {
        // f = v / (4 q): domain knowledge of incremental sensors, x4 evaluation
        assertThat(CountingRate.channelHz(1000, 0.05, Evaluation.X4)).isEqualTo(5000);
    }
}
