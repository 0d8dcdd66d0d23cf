package slowproof.trial.clock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import slowproof.trial.recording.FoundPass;
import slowproof.trial.recording.PassFinder;
import slowproof.trial.recording.PassSearch;
import slowproof.trial.recording.PlateauSpeed;
import slowproof.trial.recording.Recording;
import slowproof.trial.recording.RecordingJoiner;
import slowproof.trial.recording.SpeedJudge;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.DemoPlant;
import slowproof.trial.simulator.Drive;
import slowproof.trial.simulator.PassTruth;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.RecorderPlan;
import slowproof.trial.simulator.SeriesPlan;
import slowproof.trial.simulator.SimRecording;
import slowproof.trial.simulator.SimReference;
import slowproof.trial.simulator.SimSensor;

class ClockEstimatorTest {
    private static final long SEED = Long.getLong("slowproof.seed", 5);
    private static final double Q = 0.05;
    private static final double NOISE = 0.002;

    private static BenchPlan plan(double speed, int cycles) {
        SeriesPlan series = SeriesPlan.alternating("s", DemoPlant.felt(), 300, Drive.of(speed, 500), cycles);
        return new BenchPlan(List.of(series), SimSensor.of(Q), new SimReference(NOISE, 0, 0.001), 0.05, 1.5, 0, null);
    }

    private static SimRecording record(double speed, int cycles, RecorderPlan recorder) {
        return Bench.record(plan(speed, cycles), 0, recorder, RandomStreams.of(SEED));
    }

    private static Alignment align(SimRecording sim) {
        return ClockEstimator.align(Recordings.sensor(sim, Q), Recordings.axis(sim));
    }

    @Test
    void offsetAndDriftAreFoundWithinTheirUncertainty() {
        for (double offset : new double[] {0.35, -120, 1e9}) {
            for (double drift : new double[] {-80, 40}) {
                // the simulated sensor's clock starts within the first dwell, so a large offset is put on its stamps
                SimRecording sim = record(60, 5, RecorderPlan.twoClocks(1000, 500, offset > 1 ? 0.2 : offset, drift));
                Recording sensor = Recordings.sensor(sim, Q);
                Recording axis = offset > 1 ? Recordings.axis(sim, offset) : Recordings.axis(sim);
                Alignment alignment = ClockEstimator.align(sensor, axis);
                ClockFit fit = Objects.requireNonNull(alignment.fit(), String.valueOf(alignment.reason()));
                double truth = sim.truth().referenceTimeS(fit.epochS()) + (offset > 1 ? offset : 0) - fit.epochS();
                String about = "offset " + offset + " s, drift " + drift + " ppm: " + fit;
                assertThat(fit.offsetAtEpochStandardUncertaintyS()).as(about).isLessThan(0.2e-3);
                // four standard uncertainties: 9 degrees of freedom, six fits
                assertThat(fit.offsetAtEpochS())
                        .as(about)
                        .isCloseTo(truth, within(4 * fit.offsetAtEpochStandardUncertaintyS()));
                assertThat(fit.driftPpm()).as(about).isCloseTo(drift, within(4 * fit.driftStandardUncertaintyPpm()));
                assertThat(fit.referenceTimeS(0)).isCloseTo(fit.offsetS(), within(1e-6));
            }
        }
    }

    @Test
    void latencyOnOneClockIsMinusTheOffset() {
        SimRecording sim = record(60, 5, RecorderPlan.oneClock(1000).withLatency(0.004));
        ClockFit fit = Objects.requireNonNull(
                ClockEstimator.latency(Recordings.oneClock(sim, Q)).fit());
        assertThat(-fit.offsetAtEpochS()).isCloseTo(0.004, within(4 * fit.offsetAtEpochStandardUncertaintyS()));
        assertThat(fit.offsetAtEpochStandardUncertaintyS()).isLessThan(0.2e-3);
        assertThat(fit.drift()).isCloseTo(0, within(1e-9));
    }

    @Test
    void passesOfTwoClocksAreWithinOneCountAndTheNoiseOfTheReference() {
        for (double sensorHz : new double[] {100, 1000}) {
            SimRecording sim = record(40, 4, RecorderPlan.twoClocks(sensorHz, 250, 0.4, 150));
            Recording sensor = Recordings.sensor(sim, Q);
            Recording axis = Recordings.axis(sim);
            Recording joined = RecordingJoiner.join(sensor, axis, ClockEstimator.align(sensor, axis)::referenceTimeS);
            List<FoundPass> passes = PassFinder.find(joined).passes();
            List<PassTruth> truth = sim.truth().passes();
            assertThat(passes).hasSameSizeAs(truth);
            for (int i = 0; i < truth.size(); i++) {
                // a difference of two rounded readings lies within a count; each reference reading is a mean over a
                // dwell
                assertThat(passes.get(i).errorMm()).isCloseTo(truth.get(i).errorMm(), within(Q + 3 * NOISE));
                assertThat(passes.get(i).flags()).isEmpty();
            }
        }
    }

    @Test
    void sensorThatCountsBackwardsIsAlignedAndNamed() {
        SimRecording sim = record(60, 5, RecorderPlan.twoClocks(1000, 500, 0.3, 20));
        Alignment alignment = ClockEstimator.align(Recordings.backwards(sim, Q), Recordings.axis(sim));
        assertThat(alignment.factor()).isEqualTo(-1);
        ClockFit fit = Objects.requireNonNull(alignment.fit());
        double truth = sim.truth().referenceTimeS(fit.epochS()) - fit.epochS();
        assertThat(fit.offsetAtEpochS()).isCloseTo(truth, within(4 * fit.offsetAtEpochStandardUncertaintyS()));
    }

    @Test
    void onePassIsAlignedRoughlyOnly() {
        SeriesPlan series = SeriesPlan.oneWay("s", DemoPlant.felt(), 300, Drive.of(60, 500), 1);
        BenchPlan plan = BenchPlan.of(List.of(series), SimSensor.of(Q), new SimReference(NOISE, 0, 0.001));
        SimRecording sim = Bench.record(plan, 0, RecorderPlan.twoClocks(500, 500, 0.3, 0), RandomStreams.of(SEED));
        Alignment alignment = align(sim);
        assertThat(alignment.fit()).isNull();
        assertThat(alignment.reason()).isEqualTo(ClockReason.TOO_FEW_PASSES);
        assertThat(alignment.roughOffsetS()).isCloseTo(0.3, within(0.01));
    }

    @Test
    void aReferenceInLargeStepsIsAlignedRoughlyOnly() {
        for (double step : new double[] {0.05, 0.5}) {
            SeriesPlan series = SeriesPlan.alternating("s", DemoPlant.felt(), 300, Drive.of(60, 500), 5);
            BenchPlan plan = BenchPlan.of(List.of(series), SimSensor.of(Q), new SimReference(0, 0, step));
            SimRecording sim = Bench.record(plan, 0, RecorderPlan.twoClocks(500, 250, 0.3, 0), RandomStreams.of(SEED));
            Alignment alignment = align(sim);
            assertThat(alignment.reason()).isEqualTo(ClockReason.REFERENCE_COARSE);
            assertThat(alignment.roughOffsetS()).isCloseTo(0.3, within(0.01));
        }
    }

    @Test
    void offsetAtTimeZeroIsWithinItsUncertaintyWhereSpeedsAscend() {
        int inside = 0;
        int seeds = 20;
        for (int seed = 0; seed < seeds; seed++) {
            List<SeriesPlan> ladder = new ArrayList<>();
            for (double speed : new double[] {25, 50, 100, 200}) {
                ladder.add(SeriesPlan.alternating("s" + speed, DemoPlant.felt(), 300, Drive.of(speed, 400), 1));
            }
            BenchPlan plan =
                    new BenchPlan(ladder, SimSensor.of(Q), new SimReference(NOISE, 0, 0.001), 0.05, 1.5, 0, null);
            SimRecording sim =
                    Bench.record(plan, 0, RecorderPlan.twoClocks(1000, 250, 0.4, 100), RandomStreams.of(SEED + seed));
            ClockFit fit = Objects.requireNonNull(align(sim).fit());
            double error = fit.offsetS() - sim.truth().referenceTimeS(0);
            inside += Math.abs(error) <= 2 * fit.offsetStandardUncertaintyS() ? 1 : 0;
        }
        // twenty at 95 %: fewer than 16 would happen in three of a thousand tests (binomial)
        assertThat(inside).as("of 20 from seed " + SEED).isGreaterThanOrEqualTo(16);
    }

    @Test
    void speedIsJudgedRightWhereTheReferenceIsWrittenMoreOftenThanTheSensor() {
        SimRecording sim = record(200, 3, RecorderPlan.twoClocks(200, 1000, 0.4, 50));
        Recording sensor = Recordings.sensor(sim, Q);
        Recording axis = Recordings.axis(sim);
        Recording joined = RecordingJoiner.join(sensor, axis, ClockEstimator.align(sensor, axis)::referenceTimeS);
        PassSearch search = PassFinder.find(joined);
        assertThat(search.passes()).hasSize(6);
        for (FoundPass pass : search.passes()) {
            PlateauSpeed speed =
                    Objects.requireNonNull(SpeedJudge.judge(joined, search, pass, SpeedJudge.USUAL_AVERAGING_S));
            double whole = pass.errorMm() / pass.referenceMm();
            // starts and stops take a part of the pass with an error of their own; a count held back for a row is 0.3 %
            assertThat(speed.relativeError()).isCloseTo(whole, within(0.0005));
        }
    }

    @Test
    void partOfALogThatFitsInSeveralPlacesIsRefused() {
        SimRecording sim = record(60, 5, RecorderPlan.twoClocks(200, 200, 0.3, 0));
        SimRecording.Standstill third = sim.truth().standstills().get(2);
        SimRecording.Standstill ninth = sim.truth().standstills().get(8);
        SimRecording part = sim.withSensorGap(-1, third.startS()).withSensorGap(ninth.startS(), 1e9);
        Alignment alignment = align(part);
        assertThat(alignment.reason()).isEqualTo(ClockReason.AMBIGUOUS);
        assertThat(alignment.usable()).isFalse();
    }

    @Test
    void restAloneIsRefused() {
        SimRecording sim = record(60, 1, RecorderPlan.twoClocks(200, 200, 0.3, 0));
        SimRecording part = sim.withSensorGap(1.0, 1e9);
        assertThat(align(part).reason()).isEqualTo(ClockReason.NO_COMMON_MOTION);
    }

    @Test
    void clockSetBackIsRefused() {
        SimRecording sim = record(60, 2, RecorderPlan.twoClocks(200, 200, 0.3, 0));
        assertThat(ClockEstimator.align(Recordings.setBack(sim, Q), Recordings.axis(sim))
                        .reason())
                .isEqualTo(ClockReason.CLOCK_SET_BACK);
    }

    @Test
    void gapsInEitherLogAreBreaksOfTheJoinedOne() {
        SimRecording sim = record(60, 4, RecorderPlan.twoClocks(500, 250, 0.3, 50));
        SimRecording.Standstill second = sim.truth().standstills().get(1);
        double sensorGap = second.startS() - 3;
        double axisGap = sim.truth().standstills().get(3).startS() - 3;
        SimRecording holed = sim.withSensorGap(sensorGap, sensorGap + 0.2).withAxisGap(axisGap, axisGap + 0.8);
        Recording sensor = Recordings.sensor(holed, Q);
        Recording axis = Recordings.axis(holed);
        Alignment alignment = ClockEstimator.align(sensor, axis);
        assertThat(alignment.fit()).isNotNull();
        Recording joined = RecordingJoiner.join(sensor, axis, alignment::referenceTimeS);
        assertThat(joined.breaks()).hasSize(2);
        assertThat(joined.breaks().get(0).splits()).isFalse();
        assertThat(joined.breaks().get(1).splits()).isTrue();
        assertThat(joined.segments()).hasSize(2);
        // the pass with the long gap is lost, the others stay
        assertThat(PassFinder.find(joined).passes()).hasSize(7);
    }
}
