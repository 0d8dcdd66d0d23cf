package slowproof.trial.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.hipparchus.stat.descriptive.DescriptiveStatistics;
import org.junit.jupiter.api.Test;

class RecordingTest {
    private static final long SEED = Long.getLong("slowproof.seed", 31);
    private static final double Q = 0.05;
    private static final SimReference PERFECT = new SimReference(0, 0, 1e-6);

    private static BenchPlan plan(TrueMaterial material, double speedMmPerS, int cycles, double countMm) {
        SeriesPlan series = SeriesPlan.alternating("a", material, 300, Drive.of(speedMmPerS, 500), cycles);
        return BenchPlan.of(List.of(series), SimSensor.of(countMm), PERFECT);
    }

    private static SimRecording record(BenchPlan plan, RecorderPlan recorder) {
        return Bench.record(plan, 0, recorder, RandomStreams.of(SEED));
    }

    private static int sampleAt(double[] times, double timeS) {
        int i = 0;
        while (i < times.length - 1 && times[i] < timeS) {
            i++;
        }
        return i;
    }

    @Test
    void recordingAndReadingsOfOneSeedTellTheSameStory() {
        BenchPlan plan = DemoPlant.plan(null);
        for (int series : new int[] {4, 12, 20, 38}) {
            List<SimReading> readings = Bench.read(plan, RandomStreams.of(SEED)).readings().stream()
                    .filter(r -> r.series().equals(plan.series().get(series).name()))
                    .toList();
            SimRecording recording = Bench.record(plan, series, RecorderPlan.oneClock(500), RandomStreams.of(SEED));
            double[] times = recording.sensorTimeS();
            long[] count = recording.count();
            double[] axis = recording.axisPositionMm();
            assertThat(recording.truth().standstills()).hasSize(readings.size());
            for (int i = 0; i < readings.size(); i++) {
                SimRecording.Standstill rest = recording.truth().standstills().get(i);
                int sample = sampleAt(times, 0.5 * (rest.startS() + rest.endS()));
                // the two integrate the curve in different ways, so a count may fall on the other side of an edge
                assertThat(count[sample] * Q)
                        .as("%s, standstill %s", readings.get(i).series(), i)
                        .isCloseTo(readings.get(i).readingMm(), within(Q + 1e-9));
                // both carry the reference's own noise of 0.003 mm and rounding to 0.01 mm
                assertThat(axis[sample]).isCloseTo(readings.get(i).referenceMm(), within(0.035));
            }
        }
    }

    @Test
    void countsFollowTheTrueErrorOfEveryPass() {
        double fine = 1e-4;
        BenchPlan plan = plan(DemoPlant.film(), 90, 4, fine);
        SimRecording recording = record(plan, RecorderPlan.oneClock(200));
        double[] times = recording.sensorTimeS();
        long[] count = recording.count();
        for (int i = 0; i < 8; i++) {
            PassTruth pass = recording.truth().passes().get(i);
            SimRecording.Standstill before = recording.truth().standstills().get(i);
            SimRecording.Standstill after = recording.truth().standstills().get(i + 1);
            double travel =
                    fine * (count[sampleAt(times, after.endS() - 0.1)] - count[sampleAt(times, before.endS() - 0.1)]);
            double error = Math.signum(pass.travelMm()) * (travel - pass.travelMm());
            assertThat(error).isCloseTo(pass.errorMm(), within(2 * fine));
        }
    }

    @Test
    void clocksFollowTheStatedConvention() {
        // t_ref = t_sensor (1 + drift 1e-6) + offset; a perfect sensor then shows the true position of that time
        TrueMaterial perfect = TrueMaterial.of("perfect", v -> 0);
        for (double offset : new double[] {0.35, -120, 0}) {
            SimRecording recording = record(plan(perfect, 50, 2, Q), RecorderPlan.twoClocks(250, 1000, offset, 2000));
            Motion motion = Motion.builder()
                    .dwell(1)
                    .move(300, Drive.of(50, 500))
                    .dwell(1)
                    .move(-300, Drive.of(50, 500))
                    .dwell(1)
                    .move(300, Drive.of(50, 500))
                    .dwell(1)
                    .move(-300, Drive.of(50, 500))
                    .dwell(1)
                    .build();
            double[] times = recording.sensorTimeS();
            long[] count = recording.count();
            assertThat(times[0]).isGreaterThanOrEqualTo(0);
            assertThat(recording.truth().referenceTimeS(times[times.length - 1]))
                    .isBetween(motion.durationS() - 0.005, motion.durationS() + 1e-6);
            for (int i = 0; i < times.length; i++) {
                double trueMm = motion.positionMm(times[i] * 1.002 + offset);
                assertThat(count[i] * Q - trueMm).isBetween(-Q - 1e-9, Q + 1e-9);
            }
            double[] axisTimes = recording.axisTimeS();
            double[] axis = recording.axisPositionMm();
            for (int i = 0; i < axis.length; i++) {
                assertThat(axis[i]).isCloseTo(motion.positionMm(axisTimes[i]), within(1e-6));
            }
        }
    }

    @Test
    void latencyShowsAnOlderCount() {
        BenchPlan plan = plan(TrueMaterial.of("perfect", v -> 0), 100, 1, Q);
        long[] prompt = record(plan, RecorderPlan.oneClock(1000)).count();
        long[] late =
                record(plan, RecorderPlan.oneClock(1000).withLatency(0.004)).count();
        for (int i = 4; i < prompt.length; i++) {
            assertThat(late[i]).isBetween(prompt[i - 4] - 1, prompt[i - 4] + 1);
        }
    }

    @Test
    void jitterScattersTheCountBySpeedTimesJitter() {
        double fine = 1e-4;
        BenchPlan plan = plan(TrueMaterial.of("perfect", v -> 0), 100, 1, fine);
        long[] steady = record(plan, RecorderPlan.oneClock(1000)).count();
        SimRecording shaken = record(plan, RecorderPlan.oneClock(1000).withJitter(2e-4));
        long[] count = shaken.count();
        double[] times = shaken.sensorTimeS();
        DescriptiveStatistics plateau = new DescriptiveStatistics();
        for (int i = 0; i < count.length; i++) {
            if (times[i] > 1.3 && times[i] < 3.8) {
                plateau.addValue(fine * (count[i] - steady[i]));
            }
        }
        assertThat(plateau.getStandardDeviation()).isCloseTo(100 * 2e-4, within(0.001));
        assertThat(shaken.sensorTimeS()).isSorted();
    }

    @Test
    void narrowRegisterWrapsAndUnwrapsToTheTrueCount() {
        BenchPlan plan = plan(DemoPlant.felt(), 150, 2, 0.005);
        long[] endless = record(plan, RecorderPlan.oneClock(1000)).count();
        for (CounterRegister register : List.of(
                new CounterRegister(16, false),
                new CounterRegister(16, true),
                new CounterRegister(24, false),
                new CounterRegister(24, true),
                new CounterRegister(32, false),
                new CounterRegister(32, true))) {
            long range = 1L << register.bits();
            long start = (register.signed() ? range / 2 : range) - 1000;
            long[] shown = record(plan, RecorderPlan.oneClock(1000).withRegister(register, start))
                    .count();
            long lowest = register.signed() ? -range / 2 : 0;
            long unwrapped = shown[0];
            boolean wrapped = false;
            for (int i = 0; i < shown.length; i++) {
                assertThat(shown[i]).isBetween(lowest, lowest + range - 1);
                if (i > 0) {
                    long step = shown[i] - shown[i - 1];
                    wrapped |= Math.abs(step) > range / 2;
                    unwrapped += Math.floorMod(step + range / 2, range) - range / 2;
                }
                assertThat(unwrapped).isEqualTo(start + endless[i]);
            }
            assertThat(wrapped).as(register.toString()).isTrue();
        }
    }

    @Test
    void channelsStepThroughTheGrayOrderForwardAndBack() {
        BenchPlan plan = plan(TrueMaterial.of("perfect", v -> 0), 20, 1, Q);
        SimRecording recording = record(plan, RecorderPlan.oneClock(2000));
        int[] a = recording.channelA();
        int[] b = recording.channelB();
        long[] count = recording.count();
        // forward: A rises while B is 0 (A leads)
        int[] gray = {0b00, 0b10, 0b11, 0b01};
        for (int i = 0; i < count.length; i++) {
            assertThat(2 * a[i] + b[i]).isEqualTo(gray[(int) Math.floorMod(count[i], 4L)]);
            if (i > 0) {
                assertThat(Math.abs(a[i] - a[i - 1]) + Math.abs(b[i] - b[i - 1]))
                        .isLessThanOrEqualTo(1);
            }
        }
    }

    @Test
    void dropoutsComeInBurstsWithTheShareOfTheirSpeed() {
        SlowRise share = new SlowRise(0.02, 0.2, 40, 0.1);
        TrueMaterial material = TrueMaterial.of("patchy", v -> 0).withDropouts(new Dropouts(share, 0, 0.05, 0));
        SimRecording recording = record(plan(material, 10, 20, Q), RecorderPlan.oneClock(500));
        boolean[] valid = recording.valid();
        double[] times = recording.sensorTimeS();
        int bursts = 0;
        int off = 0;
        for (int i = 1; i < valid.length; i++) {
            bursts += valid[i - 1] && !valid[i] ? 1 : 0;
            off += valid[i] ? 0 : 1;
        }
        // 1200 s of motion; bursts of 0.05 s every 0.25 s; bursts shorter than a sample are missed now and then
        assertThat(off / 500.0 / 1200).isCloseTo(0.2, within(0.01));
        assertThat(off / 500.0 / bursts).isCloseTo(0.05, within(0.004));
        for (SimRecording.Standstill rest : recording.truth().standstills()) {
            assertThat(valid[sampleAt(times, rest.startS() + 0.5)]).isTrue();
        }
        double mean = recording.truth().passes().stream()
                .mapToDouble(PassTruth::dropoutShare)
                .average()
                .orElseThrow();
        assertThat(mean).isCloseTo(off / 500.0 / 1200, within(0.001));
    }

    @Test
    void axisCarriesItsNoiseResolutionAndScaleError() {
        SimReference reference = new SimReference(0.02, 1e-4, 0.001);
        SeriesPlan series = SeriesPlan.alternating("a", TrueMaterial.of("perfect", v -> 0), 300, Drive.of(100, 500), 1);
        BenchPlan plan = new BenchPlan(List.of(series), SimSensor.of(Q), reference, 0, 5, 0, null);
        SimRecording recording = Bench.record(plan, 0, RecorderPlan.oneClock(1000), RandomStreams.of(SEED));
        double[] times = recording.axisTimeS();
        double[] axis = recording.axisPositionMm();
        SimRecording.Standstill middle = recording.truth().standstills().get(1);
        DescriptiveStatistics far = new DescriptiveStatistics();
        for (int i = 0; i < axis.length; i++) {
            if (times[i] > middle.startS() && times[i] < middle.endS()) {
                far.addValue(axis[i]);
            }
            assertThat(axis[i] * 1000).isCloseTo(Math.rint(axis[i] * 1000), within(1e-6));
        }
        assertThat(far.getStandardDeviation()).isCloseTo(0.02, within(0.001));
        assertThat(far.getMean()).isCloseTo(300 * (1 + recording.truth().referenceScaleErrorRatio()), within(0.002));
    }

    @Test
    void travelScatterGrowsLikeARandomWalkAndEndsWhereThePassEnds() {
        RandomStreams.Normal normal =
                RandomStreams.normal(RandomStreams.of(SEED).drawing());
        double quarter = 0;
        int walks = 4_000;
        for (int i = 0; i < walks; i++) {
            double end = 0.01 * Math.sqrt(400) * normal.next();
            TravelWalk walk = TravelWalk.draw(400, 0.01, end, normal);
            assertThat(walk.atMm(0)).isZero();
            assertThat(walk.atMm(400)).isCloseTo(end, within(1e-12));
            quarter += walk.atMm(100) * walk.atMm(100) / walks;
        }
        // variance tau^2 x at x = 100 mm; known to sqrt(2 / 4000) = 2.2 %
        assertThat(quarter).isCloseTo(0.01 * 0.01 * 100, within(0.09 * 0.01));
    }

    @Test
    void driftAtRestIsRecorded() {
        SimSensor creeping = SimSensor.of(0.001).withStandstillDrift(30);
        SeriesPlan series = SeriesPlan.alternating("a", TrueMaterial.of("perfect", v -> 0), 300, Drive.of(100, 500), 1);
        BenchPlan plan = new BenchPlan(List.of(series), creeping, PERFECT, 0, 4, 0, null);
        SimRecording recording = Bench.record(plan, 0, RecorderPlan.oneClock(100), RandomStreams.of(SEED));
        double[] times = recording.sensorTimeS();
        long[] count = recording.count();
        SimRecording.Standstill last = recording.truth().standstills().get(2);
        long gained = count[sampleAt(times, last.startS() + 3.5)] - count[sampleAt(times, last.startS() + 0.5)];
        assertThat(gained * 0.001).isCloseTo(3 * 0.5, within(0.01));
        // three dwells of 4 s at 0.5 mm/s
        assertThat(count[count.length - 1] * 0.001).isCloseTo(6, within(0.01));
    }

    @Test
    void edgesAreTheMomentsAtWhichTheSampledCountSteps() {
        RecorderPlan recorder = RecorderPlan.twoClocks(1000, 1000, 0.2, 300).withLatency(0.003);
        BenchPlan plan = plan(DemoPlant.film(), 30, 2, Q);
        SimEdges edges = Bench.edges(plan, 0, recorder, RandomStreams.of(SEED));
        SimRecording samples = record(plan, recorder);
        double[] edgeTimes = edges.timeS();
        long[] edgeCounts = edges.count();
        double[] times = samples.sensorTimeS();
        long[] count = samples.count();
        assertThat(edgeTimes).isSorted().hasSizeGreaterThan(4 * 5000);
        int next = 0;
        int differing = 0;
        for (int i = 0; i < times.length; i++) {
            while (next < edgeTimes.length && edgeTimes[next] <= times[i]) {
                next++;
            }
            differing += count[i] == (next == 0 ? 0 : edgeCounts[next - 1]) ? 0 : 1;
        }
        // only samples that fall on an edge to within the straight line of a quarter count may differ
        assertThat(differing).isLessThan(times.length / 1000);
    }

    @Test
    void phaseErrorSpacesEdgesUnevenlyAndLeavesWholePeriodsAlone() {
        SeriesPlan series = SeriesPlan.alternating("a", TrueMaterial.of("perfect", v -> 0), 300, Drive.of(50, 500), 1);
        BenchPlan plan = BenchPlan.of(List.of(series), SimSensor.of(Q).withPhaseError(0.2), PERFECT);
        SimEdges edges = Bench.edges(plan, 0, RecorderPlan.oneClock(1000), RandomStreams.of(SEED));
        double[] times = edges.timeS();
        for (int i = 2000; i < 3000; i++) {
            double interval = (times[i + 1] - times[i]) * 50 / Q;
            assertThat(Math.abs(interval - 1)).isCloseTo(0.2, within(1e-6));
            assertThat((times[i + 4] - times[i]) * 50 / Q).isCloseTo(4, within(1e-6));
        }
    }

    @Test
    void gapsTakeSamplesOutAndNothingElse() {
        SimRecording whole = record(plan(DemoPlant.felt(), 100, 1, Q), RecorderPlan.oneClock(100));
        SimRecording gap = whole.withSensorGap(2, 2.5).withAxisGap(3, 3.2);
        assertThat(gap.sensorTimeS()).hasSize(whole.sensorTimeS().length - 50);
        assertThat(gap.count()).hasSize(gap.sensorTimeS().length);
        assertThat(gap.valid()).hasSize(gap.sensorTimeS().length);
        assertThat(gap.sensorTimeS()[200]).isEqualTo(2.5);
        assertThat(gap.count()[200]).isEqualTo(whole.count()[250]);
        assertThat(gap.axisTimeS()).hasSize(whole.axisTimeS().length - 20);
        assertThat(gap.axisPositionMm()[300]).isEqualTo(whole.axisPositionMm()[320]);
    }

    @Test
    void sameSeedGivesTheSameRecording() {
        RecorderPlan recorder = RecorderPlan.twoClocks(1000, 500, -3, 40).withJitter(1e-5);
        SimRecording first = record(plan(DemoPlant.film(), 60, 1, Q), recorder);
        SimRecording second = record(plan(DemoPlant.film(), 60, 1, Q), recorder);
        assertThat(second.count()).isEqualTo(first.count());
        assertThat(second.valid()).isEqualTo(first.valid());
        assertThat(second.axisPositionMm()).isEqualTo(first.axisPositionMm());
        assertThat(second.truth()).isEqualTo(first.truth());
    }

    @Test
    void impossibleRecordersAreRefused() {
        BenchPlan plan = plan(DemoPlant.felt(), 100, 1, Q);
        assertThatThrownBy(() -> record(plan, RecorderPlan.twoClocks(100, 100, 2, 0)))
                .hasMessageContaining("first dwell lasts 1.0 s");
        assertThatThrownBy(() -> RecorderPlan.oneClock(0)).hasMessageContaining("sampling rate");
        assertThatThrownBy(() -> new CounterRegister(64, false)).hasMessageContaining("64 bits");
    }
}
