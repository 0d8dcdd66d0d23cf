package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;

class PassFinderTest {
    private static final double Q = 0.05;

    private static PassSearch search(Bench bench, double scaleError, double noiseMm) {
        return PassFinder.find(
                RecordingAssembler.assemble(bench.done().counted(Q, scaleError, noiseMm, 1), SensorScale.ofCounts(Q)));
    }

    @Test
    void forwardAndReturnAreTwoPassesThatShareAStandstill() {
        Bench bench = new Bench(0.001)
                .rest(2)
                .move(900, 100, 400, 400)
                .rest(2)
                .move(-900, 100, 400, 400)
                .rest(2);
        List<FoundPass> passes = search(bench, 0.002, 0.002).passes();
        assertThat(passes).hasSize(2);
        assertThat(passes.get(0).referenceMm()).isCloseTo(900, within(0.001));
        assertThat(passes.get(0).indicationMm()).isCloseTo(901.8, within(Q + 0.001));
        assertThat(passes.get(0).errorMm()).isCloseTo(1.8, within(Q + 0.001));
        assertThat(passes.get(1).referenceMm()).isCloseTo(-900, within(0.001));
        assertThat(passes.get(1).errorMm()).isCloseTo(1.8, within(Q + 0.001));
        assertThat(passes.get(0).joined()).isFalse();
        assertThat(passes.get(1).joined()).isTrue();
        assertThat(passes).allSatisfy(pass -> {
            assertThat(pass.flags()).isEmpty();
            assertThat(pass.plateauSpeedMmPerS()).isCloseTo(100, within(0.1));
            assertThat(pass.accelerationMmPerS2()).isCloseTo(400, within(8.0));
            assertThat(pass.decelerationMmPerS2()).isCloseTo(400, within(8.0));
        });
        // the move starts at 2 s and takes 900/100 + 100/400 s
        assertThat(passes.get(0).startS()).isCloseTo(2, within(0.02));
        assertThat(passes.get(0).endS()).isCloseTo(11.25, within(0.02));
    }

    @Test
    void laddersOfSpeedsRampsRatesAndNoiseAreFoundWithinOneCount() {
        long seed = Long.getLong("slowproof.seed", 20_240L);
        SplittableRandom random = new SplittableRandom(seed);
        for (int trial = 0; trial < 60; trial++) {
            double speed = 4 * Math.pow(100, random.nextDouble());
            double up = 100 * Math.pow(10, random.nextDouble());
            double down = 100 * Math.pow(10, random.nextDouble());
            double travel = speed * speed * (1 / up + 1 / down) / 2 + speed * (0.5 + 3 * random.nextDouble());
            double interval = random.nextBoolean() ? 0.001 : 0.005;
            double noise = 0.005 * random.nextDouble();
            double scale = 0.01 * (random.nextDouble() - 0.5);
            int moves = random.nextInt(1, 4);
            Bench bench = new Bench(interval, 1000 * random.nextDouble()).rest(1 + random.nextDouble());
            for (int k = 0; k < moves; k++) {
                bench.move(k % 2 == 0 ? travel : -travel, speed, up, down).rest(0.8 + random.nextDouble());
            }
            PassSearch search = search(bench, scale, noise);
            String about = "seed " + seed + ", trial " + trial + ", speed " + speed + ", ramps " + up + " and " + down
                    + ", noise " + noise + ", interval " + interval;
            assertThat(search.passes()).as(about).hasSize(moves);
            for (FoundPass pass : search.passes()) {
                assertThat(pass.errorMm()).as(about).isCloseTo(scale * travel, within(Q + 3 * noise));
                assertThat(pass.plateauSpeedMmPerS()).as(about).isCloseTo(speed, within(0.01 * speed));
                assertRamp(about, pass.accelerationMmPerS2(), up);
                assertRamp(about, pass.decelerationMmPerS2(), down);
                double evenShare = 1 - speed * speed * (1 / up + 1 / down) / 2 / travel;
                if (evenShare > 0.25) {
                    assertThat(pass.flags()).as(about).isEmpty();
                } else {
                    assertThat(pass.flags()).as(about).isSubsetOf(PassFlag.NO_PLATEAU);
                }
            }
        }
    }

    /** A ramp too short for the rows or too small for the noise gives no figure; any other a good one. */
    private static void assertRamp(String about, double found, double truth) {
        if (!Double.isNaN(found)) {
            assertThat(found).as(about).isCloseTo(truth, within(0.15 * truth));
        }
    }

    @Test
    void slowCreepIsAPassAndNotAStandstill() {
        Bench bench = new Bench(0.001).rest(3).move(20, 0.5, 5, 5).rest(3);
        List<FoundPass> passes = search(bench, 0, 0.002).passes();
        assertThat(passes).hasSize(1);
        assertThat(passes.get(0).plateauSpeedMmPerS()).isCloseTo(0.5, within(0.005));
    }

    @Test
    void recordingThatStartsAndEndsInMotionKeepsWholePassesOnlyAndSaysSo() {
        Bench bench = new Bench(0.001)
                .hold(1, 50)
                .rest(1)
                .move(200, 50, 400, 400)
                .rest(1)
                .hold(1, -50);
        PassSearch search = search(bench, 0, 0.001);
        assertThat(search.passes()).hasSize(1);
        assertThat(search.notes())
                .extracting(Note::code)
                .containsExactly(NoteCode.LOG_STARTS_IN_MOTION, NoteCode.LOG_ENDS_IN_MOTION);
    }

    @Test
    void neverAtRestGivesNoPassAndANote() {
        PassSearch search = search(new Bench(0.001).hold(10, 50), 0, 0.001);
        assertThat(search.passes()).isEmpty();
        assertThat(search.notes()).extracting(Note::code).containsExactly(NoteCode.LOG_NO_STANDSTILL);
    }

    @Test
    void haltShorterThanADwellIsFlaggedAndDoesNotCutThePass() {
        Bench bench = new Bench(0.001)
                .rest(1)
                .move(300, 100, 400, 400)
                .rest(0.25)
                .move(300, 100, 400, 400)
                .rest(1);
        List<FoundPass> passes = search(bench, 0, 0.001).passes();
        assertThat(passes).hasSize(1);
        assertThat(passes.get(0).referenceMm()).isCloseTo(600, within(0.001));
        assertThat(passes.get(0).flags()).containsExactly(PassFlag.STOP_INSIDE_PASS);
    }

    @Test
    void reversalWithoutDwellIsCutAtTheTurningPointAndFlagged() {
        Bench bench = new Bench(0.001)
                .rest(1)
                .move(300, 100, 400, 400)
                .move(-300, 100, 400, 400)
                .rest(1);
        List<FoundPass> passes = search(bench, 0.01, 0.001).passes();
        assertThat(passes).hasSize(2);
        assertThat(passes.get(0).errorMm()).isCloseTo(3, within(Q + 0.01));
        assertThat(passes.get(1).errorMm()).isCloseTo(3, within(Q + 0.01));
        assertThat(passes).allSatisfy(pass -> assertThat(pass.flags()).containsExactly(PassFlag.SHORT_DWELL));
    }

    @Test
    void overshootIsMeasured() {
        Bench bench = new Bench(0.001)
                .rest(1)
                .move(300.8, 100, 400, 400)
                .move(-0.8, 5, 100, 100)
                .rest(1);
        List<FoundPass> passes = search(bench, 0, 0.001).passes();
        assertThat(passes).hasSize(1);
        assertThat(passes.get(0).flags()).containsExactly(PassFlag.OVERSHOOT);
        assertThat(passes.get(0).overshootMm()).isCloseTo(0.8, within(0.02));
        assertThat(passes.get(0).referenceMm()).isCloseTo(300, within(0.001));
    }

    @Test
    void toAndFroByHandIsFlaggedAsUnclear() {
        Bench bench = new Bench(0.001)
                .rest(1)
                .move(30, 50, 400, 400)
                .move(-30, 50, 400, 400)
                .move(230, 50, 400, 400)
                .rest(1);
        List<FoundPass> passes = search(bench, 0, 0.001).passes();
        assertThat(passes).hasSize(1);
        assertThat(passes.get(0).flags()).contains(PassFlag.DIRECTION_UNCLEAR);
        assertThat(passes.get(0).pathMm()).isCloseTo(290, within(0.1));
    }

    @Test
    void shortGapIsFlaggedInItsPassAndALongOneCutsTheRecording() {
        Bench bench = new Bench(0.001)
                .rest(1)
                .move(300, 100, 400, 400)
                .rest(1)
                .move(-300, 100, 400, 400)
                .rest(1);
        Bench.Truth truth = bench.done();
        Recording brief = RecordingAssembler.assemble(without(truth, 2.0, 2.2), SensorScale.ofCounts(Q));
        PassSearch kept = PassFinder.find(brief);
        assertThat(brief.segments()).hasSize(1);
        assertThat(kept.passes()).hasSize(2);
        assertThat(kept.passes().get(0).flags()).containsExactly(PassFlag.GAP_IN_PASS);
        assertThat(kept.passes().get(1).flags()).isEmpty();

        Recording longer = RecordingAssembler.assemble(without(truth, 2.0, 2.8), SensorScale.ofCounts(Q));
        PassSearch cut = PassFinder.find(longer);
        assertThat(longer.segments()).hasSize(2);
        assertThat(cut.passes()).hasSize(1);
        assertThat(cut.passes().get(0).referenceMm()).isCloseTo(-300, within(0.001));
        assertThat(cut.notes())
                .extracting(Note::code)
                .containsExactly(NoteCode.LOG_ENDS_IN_MOTION, NoteCode.LOG_STARTS_IN_MOTION);
    }

    private static LoggedColumns without(Bench.Truth truth, double fromS, double toS) {
        int[] rows = IntStream.range(0, truth.timeS().length)
                .filter(i -> truth.timeS()[i] < fromS || truth.timeS()[i] > toS)
                .toArray();
        double[] time = Arrays.stream(rows).mapToDouble(i -> truth.timeS()[i]).toArray();
        double[] place =
                Arrays.stream(rows).mapToDouble(i -> truth.positionMm()[i]).toArray();
        return new Bench.Truth(time, place).counted(Q, 0, 0.001, 1);
    }

    @Test
    void dropoutShareCountsMovingTimeOnly() {
        Bench.Truth truth =
                new Bench(0.001).rest(5).move(400, 100, 400, 400).rest(5).done();
        LoggedColumns plain = truth.counted(Q, 0, 0.001, 1);
        double[] dropout = new double[truth.timeS().length];
        // the whole first second of rest is lost, and one second of the plateau of 4.25 s of motion
        for (int i = 0; i < dropout.length; i++) {
            double t = truth.timeS()[i];
            dropout[i] = t < 1 || (t >= 6 && t < 7) ? 1 : 0;
        }
        LoggedColumns log = new LoggedColumns(
                plain.source(),
                plain.lines(),
                plain.timeS(),
                plain.count(),
                null,
                null,
                null,
                plain.referenceMm(),
                Column.copyOf(dropout));
        FoundPass pass = PassFinder.find(RecordingAssembler.assemble(log, SensorScale.ofCounts(Q)))
                .passes()
                .get(0);
        assertThat(pass.dropoutShare()).isCloseTo(1 / 4.25, within(0.002));
    }

    @Test
    void standstillsShorterThanADwellMakeTheRestUnclearAndThatIsSaid() {
        Bench bench = new Bench(0.01).rest(0.15);
        for (int i = 0; i < 3; i++) {
            bench.move(300, 100, 200, 200).rest(0.1).move(-300, 100, 200, 200).rest(0.1);
        }
        LoggedColumns log = bench.done().counted(Q, 0, 0.001, 1);
        Recording recording = RecordingAssembler.assemble(log, SensorScale.ofCounts(Q));
        assertThat(PassFinder.find(recording).notes()).extracting(Note::code).contains(NoteCode.LOG_REST_UNCLEAR);
        PassSettings shorter = new PassSettings(0.05, null, null, 0.01);
        PassSearch search = PassFinder.find(recording, shorter);
        assertThat(search.passes()).hasSize(6);
        assertThat(search.notes()).isEmpty();
    }

    @Test
    void rowsLeftOutForWantOfACountStillTellTheirDropout() {
        Bench.Truth truth =
                new Bench(0.01).rest(5).move(400, 100, 400, 400).rest(5).done();
        double[] time = truth.timeS();
        double[] count = truth.counts(Q, 0.001);
        double[] dropout = new double[time.length];
        // 0.4 s of the plateau of 4.25 s of motion without a signal, and so without a count
        for (int i = 0; i < time.length; i++) {
            boolean lost = time[i] > 6.005 && time[i] < 6.405;
            dropout[i] = lost ? 1 : 0;
            count[i] = lost ? Double.NaN : count[i];
        }
        Recording recording = RecordingAssembler.assemble(
                Logs.counts(time, count, truth.positionMm(), dropout), SensorScale.ofCounts(Q));
        assertThat(recording.breaks()).extracting(Break::cause).containsExactly(Break.Cause.NO_VALUE);
        FoundPass pass = PassFinder.find(recording).passes().get(0);
        assertThat(pass.dropoutShare()).isCloseTo(0.4 / 4.25, within(0.004));
        assertThat(DropoutPlaces.of(recording, pass).plateau()).isCloseTo(0.4 / 3.75, within(0.01));
    }

    @Test
    void rowsOfOneTimeStampShareItsTimeWithAllTheirDropouts() {
        Bench.Truth truth =
                new Bench(0.01).rest(5).move(400, 20, 400, 400).rest(5).done();
        double[] time = truth.timeS();
        double[] dropout = new double[time.length];
        for (int i = 0; i < time.length; i++) {
            // every fourth row is lost, and a clock that shows tenths gives ten rows one stamp
            dropout[i] = i % 4 == 0 ? 1 : 0;
            time[i] = Math.floor(10 * time[i] + 1e-6) / 10;
        }
        Recording recording = RecordingAssembler.assemble(
                Logs.counts(time, truth.counts(Q, 0.001), truth.positionMm(), dropout), SensorScale.ofCounts(Q));
        assertThat(PassFinder.find(recording).passes().get(0).dropoutShare()).isCloseTo(0.25, within(0.01));
    }

    @Test
    void dropoutsAreToldByPlace() {
        Bench.Truth truth =
                new Bench(0.001).rest(5).move(400, 100, 400, 400).rest(5).done();
        double[] dropout = new double[truth.timeS().length];
        for (int i = 0; i < dropout.length; i++) {
            double t = truth.timeS()[i];
            // ramps of 0.25 s from 5 s and to 9.25 s: half of the first, two bursts in the plateau
            dropout[i] = t < 5.125 || (t > 6 && t <= 6.5) || (t > 7 && t <= 7.2) ? 1 : 0;
        }
        LoggedColumns plain = truth.counted(Q, 0, 0.001, 1);
        LoggedColumns log = new LoggedColumns(
                plain.source(),
                plain.lines(),
                plain.timeS(),
                plain.count(),
                null,
                null,
                null,
                plain.referenceMm(),
                Column.copyOf(dropout));
        Recording recording = RecordingAssembler.assemble(log, SensorScale.ofCounts(Q));
        DropoutPlaces places =
                DropoutPlaces.of(recording, PassFinder.find(recording).passes().get(0));
        assertThat(places.bursts()).isEqualTo(3);
        assertThat(places.longestS()).isCloseTo(0.5, within(0.002));
        assertThat(places.longestMm()).isCloseTo(50, within(0.2));
        assertThat(places.longestAtS()).isCloseTo(6, within(0.002));
        // 0.7 s of the plateau of 3.75 s
        assertThat(places.plateau()).isCloseTo(0.7 / 3.75, within(0.005));
        assertThat(places.speedingUp()).isCloseTo(0.5, within(0.08));
        assertThat(places.slowingDown()).isZero();
    }

    @Test
    void withoutAReferenceTheSensorTellsTheMotionAndNoError() {
        Bench.Truth truth = new Bench(0.001)
                .rest(1)
                .move(300, 50, 400, 400)
                .rest(1)
                .move(-300, 50, 400, 400)
                .rest(1)
                .done();
        LoggedColumns log = Logs.counts(truth.timeS(), truth.counts(Q, 0), null, null);
        List<FoundPass> passes = PassFinder.find(RecordingAssembler.assemble(log, SensorScale.ofCounts(Q)))
                .passes();
        assertThat(passes).hasSize(2);
        assertThat(passes.get(0).indicationMm()).isCloseTo(300, within(Q + 1e-9));
        assertThat(passes.get(0).plateauSpeedMmPerS()).isCloseTo(50, within(0.2));
        assertThat(passes).allSatisfy(pass -> {
            assertThat(pass.referenceMm()).isNaN();
            assertThat(pass.errorMm()).isNaN();
        });
    }

    @Test
    void edgeListThatIsSilentAtRestGivesTheSamePasses() {
        Bench.Truth truth = new Bench(0.0002)
                .rest(2)
                .move(100, 50, 400, 400)
                .rest(3)
                .move(-100, 50, 400, 400)
                .rest(2)
                .done();
        // a row for each change of the levels, with the reference at that moment, and one at each end
        double[] counts = truth.counts(Q, 0.004);
        int[] rows = IntStream.range(0, counts.length)
                .filter(i -> i == 0 || i == counts.length - 1 || counts[i] != counts[i - 1])
                .toArray();
        double[] time = Arrays.stream(rows).mapToDouble(i -> truth.timeS()[i]).toArray();
        double[] place =
                Arrays.stream(rows).mapToDouble(i -> truth.positionMm()[i]).toArray();
        double[] a =
                Arrays.stream(rows).mapToDouble(i -> level(counts[i], 1, 2)).toArray();
        double[] b =
                Arrays.stream(rows).mapToDouble(i -> level(counts[i], 2, 3)).toArray();
        LoggedColumns log = Logs.levels(time, a, b, place);
        Recording recording = RecordingAssembler.assemble(log, SensorScale.ofCounts(Q));
        assertThat(recording.illegalTransitions()).isEmpty();
        List<FoundPass> passes = PassFinder.find(recording).passes();
        assertThat(passes).hasSize(2);
        for (FoundPass pass : passes) {
            // the row that ends a silence already belongs to the next move, by one count
            assertThat(pass.errorMm()).isCloseTo(0.4, within(2 * Q));
            assertThat(Math.abs(pass.referenceMm())).isCloseTo(100, within(2 * Q));
            assertThat(pass.plateauSpeedMmPerS()).isCloseTo(50, within(0.5));
        }
    }

    private static double level(double count, int first, int second) {
        int phase = Math.floorMod((int) count, 4);
        return phase == first || phase == second ? 1 : 0;
    }

    @Test
    void driftAtRestIsFlaggedAndMeasured() {
        Bench.Truth truth =
                new Bench(0.001).rest(5).move(400, 100, 400, 400).rest(5).done();
        double[] count = new double[truth.timeS().length];
        for (int i = 0; i < count.length; i++) {
            count[i] = Math.floor((truth.positionMm()[i] + 0.1 * truth.timeS()[i]) / Q);
        }
        FoundPass pass = PassFinder.find(
                        RecordingAssembler.assemble(truth.logged(count, truth.positionMm()), SensorScale.ofCounts(Q)))
                .passes()
                .get(0);
        assertThat(pass.flags()).containsExactly(PassFlag.STANDSTILL_DRIFT);
        assertThat(pass.before().driftMmPerMin()).isCloseTo(6, within(0.3));
    }

    @Test
    void givenThresholdsAreUsed() {
        Bench bench = new Bench(0.001).rest(2).move(20, 2, 50, 50).rest(2);
        Bench.Truth truth = bench.done();
        Recording recording = RecordingAssembler.assemble(truth.counted(Q, 0, 0.001, 1), SensorScale.ofCounts(Q));
        assertThat(PassFinder.find(recording, new PassSettings(0.5, 1.0, 1.5, 0.25))
                        .passes())
                .hasSize(1);
        assertThat(PassFinder.find(recording, new PassSettings(0.5, 5.0, null, 0.25))
                        .passes())
                .isEmpty();
    }
}
