package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Objects;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class SpeedJudgeTest {
    private static final double Q = 0.05;

    private static PlateauSpeed judge(Bench.Truth truth, double[] counts, double[] reference, double averagingS) {
        Recording recording = RecordingAssembler.assemble(truth.logged(counts, reference), SensorScale.ofCounts(Q));
        PassSearch search = PassFinder.find(recording);
        return Objects.requireNonNull(
                SpeedJudge.judge(recording, search, search.passes().get(0), averagingS));
    }

    @Test
    void speedErrorIsThatOfTheScaleAtEverySpeedAndDirection() {
        for (double speed : new double[] {2, 20, 200}) {
            for (double sense : new double[] {1, -1}) {
                Bench.Truth truth = new Bench(0.001)
                        .rest(1)
                        .move(sense * 6 * speed, speed, 400, 400)
                        .rest(1)
                        .done();
                PlateauSpeed found = judge(truth, truth.counts(Q, 0.01), truth.positionMm(), 0.1);
                double u = found.standardUncertaintyMmPerS() / speed;
                assertThat(found.relativeError()).isCloseTo(0.01, within(4 * u + 1e-6));
                assertThat(u).isLessThan(1e-3);
                assertThat(found.referenceMmPerS()).isCloseTo(sense * speed, within(0.001 * speed));
            }
        }
    }

    @Test
    void rippleOfACountingSensorIsExplainedByCounting() {
        Bench.Truth truth =
                new Bench(0.001).rest(1).move(400, 37.3, 400, 400).rest(1).done();
        PlateauSpeed found = judge(truth, truth.counts(Q, 0), truth.positionMm(), 0.1);
        assertThat(found.averages()).isGreaterThan(80);
        assertThat(found.countingShare()).isGreaterThan(0.5);
        // q / (T sqrt 6) = 0.2 mm/s at most
        assertThat(found.rippleMmPerS()).isLessThan(0.25);
    }

    @Test
    void rippleOfTheSensorIsFoundAndThatOfTheDriveTakenOut() {
        Bench.Truth truth =
                new Bench(0.001).rest(1).move(800, 40, 400, 400).rest(1).done();
        SplittableRandom random = new SplittableRandom(4);
        double[] time = truth.timeS();
        double[] moved = truth.positionMm().clone();
        double[] counts = new double[time.length];
        double drive = 0;
        double sensor = 0;
        double driveSpeed = 0;
        double sensorSpeed = 0;
        for (int i = 0; i < time.length; i++) {
            boolean moving = moved[i] > 1 && moved[i] < 799;
            if (i % 100 == 0) {
                // white in averages of 0.1 s: 1 mm/s of the drive, 2 mm/s of the sensor
                driveSpeed = random.nextGaussian();
                sensorSpeed = 2 * random.nextGaussian();
            }
            drive += moving ? 0.001 * driveSpeed : 0;
            sensor += moving ? 0.001 * sensorSpeed : 0;
            moved[i] += drive;
            counts[i] = Math.floor((moved[i] + sensor) / Q);
        }
        PlateauSpeed found = judge(truth, counts, moved, 0.1);
        // blocks of 0.1 s not aligned with the averages: two neighbours mixed, variance 2/3 on average
        assertThat(found.rippleMmPerS()).isBetween(1.4, 2.1);
        assertThat(found.countingShare()).isLessThan(0.1);
    }

    @Test
    void rippleOfTheDriveIsNoneOfTheSensorAndWhatIsLeftIsCounting() {
        Bench.Truth truth =
                new Bench(0.001).rest(1).move(2000, 40, 400, 400).rest(1).done();
        double[] time = truth.timeS();
        double[] moved = truth.positionMm().clone();
        double[] counts = new double[time.length];
        for (int i = 0; i < time.length; i++) {
            boolean moving = moved[i] > 1 && moved[i] < 1999;
            // 0.3 Hz: the averages scatter by 2 % of the speed, forty times what counting makes of it
            moved[i] += moving ? 0.6 * Math.sin(2 * Math.PI * 0.3 * time[i]) : 0;
            counts[i] = Math.floor(moved[i] / Q);
        }
        PlateauSpeed found = judge(truth, counts, moved, 0.1);
        assertThat(found.rippleMmPerS()).isLessThan(0.25);
        assertThat(found.countingShare()).isGreaterThan(0.3);
    }

    @Test
    void plateauShorterThanTwoAveragesIsNotJudged() {
        Bench.Truth truth =
                new Bench(0.001).rest(1).move(60, 100, 400, 400).rest(1).done();
        Recording recording = RecordingAssembler.assemble(
                truth.logged(truth.counts(Q, 0), truth.positionMm()), SensorScale.ofCounts(Q));
        PassSearch search = PassFinder.find(recording);
        assertThat(SpeedJudge.judge(recording, search, search.passes().get(0), 0.5))
                .isNull();
    }
}
