package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;

class StandstillDriftTest {
    private static final double Q = 0.05;
    private static final int BENCHES = 200;

    /** To and fro with rests of 2 to 4 s; the bench trembles, the reference is noisy, the sensor gains only at rest. */
    private static StandstillDrift simulated(double mmPerMin, int passes, SplittableRandom random) {
        Bench bench = new Bench(0.005, random.nextDouble(1));
        for (int pass = 0; pass < passes; pass++) {
            bench.rest(random.nextDouble(2, 4)).move(pass % 2 == 0 ? 200 : -200, 100, 400, 400);
        }
        Bench.Truth truth = bench.rest(3).done();
        double[] position = truth.positionMm();
        double[] counts = new double[position.length];
        double[] reference = new double[position.length];
        double gained = 0;
        for (int i = 0; i < position.length; i++) {
            if (i > 0 && Math.abs(position[i] - position[i - 1]) < 1e-9) {
                gained += mmPerMin / 60 * (truth.timeS()[i] - truth.timeS()[i - 1]);
            }
            counts[i] = Math.floor((position[i] + gained + 0.01 * random.nextGaussian()) / Q);
            reference[i] = position[i] + 0.002 * random.nextGaussian();
        }
        PassSearch search =
                PassFinder.find(RecordingAssembler.assemble(truth.logged(counts, reference), SensorScale.ofCounts(Q)));
        assertThat(search.passes()).hasSize(passes);
        return Objects.requireNonNull(search.drift());
    }

    /** Truth is known by simulation. */
    @Test
    void intervalHoldsTheTrueDriftAndItsMeanIsRight() {
        SplittableRandom random = new SplittableRandom(20261);
        int inside = 0;
        double deviations = 0;
        double variances = 0;
        for (int i = 0; i < BENCHES; i++) {
            double truth = random.nextDouble(-20, 20);
            StandstillDrift found = simulated(truth, random.nextInt(3, 9), random);
            double t = Distributions.studentQuantile(0.975, found.standstills() - 1);
            inside += Math.abs(found.mmPerMin() - truth) <= t * found.standardUncertaintyMmPerMin() ? 1 : 0;
            deviations += found.mmPerMin() - truth;
            variances += found.standardUncertaintyMmPerMin() * found.standardUncertaintyMmPerMin();
        }
        // 95 % less three standard deviations of 200 draws; rounding of counts is stated on the safe side
        assertThat((double) inside / BENCHES).isGreaterThanOrEqualTo(0.90);
        assertThat(Math.abs(deviations)).isLessThan(3 * Math.sqrt(variances));
    }

    @Test
    void aBenchWithoutDriftIsRarelySaidToDrift() {
        SplittableRandom random = new SplittableRandom(20262);
        int said = 0;
        for (int i = 0; i < BENCHES; i++) {
            said += simulated(0, random.nextInt(3, 9), random).significant() ? 1 : 0;
        }
        // at most the level of 5 % and three standard deviations of 200 draws
        assertThat((double) said / BENCHES).isLessThanOrEqualTo(0.10);
    }

    @Test
    void whatItMakesBesideAPassIsDriftTimesDwell() {
        StandstillDrift drift = new StandstillDrift(-6, 0.5, 5, 12);
        Dwell before = new Dwell(0, 1, 0, 2, 0, 0, 1.5, -6, 0.2, true);
        Dwell after = new Dwell(3, 4, 5, 9, 100, 100, 3.5, -6, 0.4, true);
        FoundPass pass = new FoundPass(
                before, after, false, 2, 5, 100, 100, 50, 2.5, 4.5, 0.8, 100, 100, 50, 100, 0, Double.NaN, Set.of());
        // 0.1 mm/s over half of 2 s and half of 4 s
        assertThat(drift.overDwellsMm(pass)).isCloseTo(0.3, within(1e-12));
        assertThat(new StandstillDrift(-6, 3, 5, 12).overDwellsMm(pass)).isZero();
        assertThat(new StandstillDrift(-6, 0.5, 1, 3).significant()).isFalse();
    }

    @Test
    void equalStandstillsAreNoBetterThanTheStepsOfTheCounter() {
        Dwell dwell = new Dwell(0, 1, 0, 2, 0, 0, 2, 0, 0, true);
        StandstillDrift drift = Objects.requireNonNull(StandstillDrift.of(List.of(dwell, dwell), Q));
        assertThat(drift.mmPerMin()).isZero();
        // two differences of two readings each, rectangular over a step, within 4 s
        assertThat(drift.standardUncertaintyMmPerMin())
                .isCloseTo(60 * Math.sqrt(2 * 2 * Q * Q / 12) / 4, within(1e-12));
        assertThat(StandstillDrift.of(List.of(), Q)).isNull();
    }
}
