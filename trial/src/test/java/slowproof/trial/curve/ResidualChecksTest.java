package slowproof.trial.curve;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.note.Quantity;
import slowproof.trial.scatter.PassError;

class ResidualChecksTest {
    private static final double[] SPEEDS = {200, 30, 90, 50, 140};

    @Test
    void cleanTrialsAreSeldomMarked() {
        int marked = 0;
        int trials = 200;
        for (int t = 0; t < trials; t++) {
            marked += ResidualChecks.notes(passes(100 + t, SPEEDS, p -> 0), "felt", 0)
                            .isEmpty()
                    ? 0
                    : 1;
        }
        // four tests at 1 %
        assertThat(marked / (double) trials).isLessThan(0.09);
    }

    @Test
    void driftWithinTheSeriesIsToldPerPass() {
        List<Note> notes = ResidualChecks.notes(passes(1, SPEEDS, p -> 0.01 * p.indexInSeries()), "felt", 0);
        Note drift = only(notes, NoteCode.DRIFT_IN_SERIES);
        assertThat(drift.where()).isEqualTo("felt");
        assertThat(((Quantity) drift.arguments().get(0)).value()).isBetween(0.007, 0.013);
    }

    @Test
    void firstPassesUnlikeTheOthersAreAWarmUp() {
        List<Note> notes = ResidualChecks.notes(passes(2, SPEEDS, p -> p.indexInSeries() < 2 ? 0.08 : 0), "felt", 0);
        assertThat(((Quantity) only(notes, NoteCode.WARM_UP).arguments().get(0)).value())
                .isBetween(0.05, 0.11);
    }

    @Test
    void onePassFarFromAllIsNamed() {
        List<Note> notes = ResidualChecks.notes(passes(3, SPEEDS, p -> p.id().equals("v90.0/5") ? 0.15 : 0), "felt", 0);
        assertThat(only(notes, NoteCode.RESIDUAL_OUTLIER).where()).isEqualTo("v90.0/5");
    }

    @Test
    void slowWavesAreNotRandomOrder() {
        List<Note> notes = ResidualChecks.notes(
                passes(4, SPEEDS, p -> 0.08 * Math.sin(2 * Math.PI * p.indexInSeries() / 12.0)), "felt", 0);
        assertThat(notes).anyMatch(note -> note.code() == NoteCode.ORDER_NOT_RANDOM);
    }

    @Test
    void risingSpeedsWithoutARepeatedOneAreConfounded() {
        double[] rising = {30, 50, 90, 140};
        assertThat(only(ResidualChecks.notes(passes(5, rising, p -> 0), "felt", 0), NoteCode.ORDER_CONFOUNDED))
                .isNotNull();
    }

    @Test
    void repeatedCheckSpeedShowsADriftOverTheTrial() {
        List<PassError> passes = new ArrayList<>();
        SplittableRandom random = new SplittableRandom(6);
        for (int s = 0; s < 6; s++) {
            double speed = s % 2 == 0 ? 100 : 40;
            for (int i = 0; i < 10; i++) {
                passes.add(pass("s" + s, i, speed, 0.05 * s + 0.02 * gauss(random)));
            }
        }
        List<Note> notes = ResidualChecks.notes(passes, "felt", 0);
        assertThat(((Quantity) only(notes, NoteCode.DRIFT_BETWEEN_SERIES)
                                .arguments()
                                .get(0))
                        .value())
                .isBetween(0.04, 0.06);
        List<PassError> shuffled = new ArrayList<>(passes);
        Collections.shuffle(shuffled.subList(0, 10), new Random(1));
        assertThat(ResidualChecks.notes(shuffled, "felt", 0)).isEqualTo(notes);
    }

    @Test
    void equalReadingsAreNoOutliers() {
        List<PassError> passes = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            passes.add(pass("a", i, 100, 0.1));
        }
        assertThat(ResidualChecks.notes(passes, "felt", 0)).isEmpty();
    }

    @Test
    void inputIsRemarkedOn() {
        CurveSettings settings = new CurveSettings("felt", 0.5, 0, 0, 1, 200);
        List<PassError> passes = new ArrayList<>(passes(7, SPEEDS, p -> 0));
        for (int i = 0; i < 6; i++) {
            passes.add(PassError.ofMove("fast/" + i, "fast", i, false, 1, 0.01 * i, 750, 900, 500, 0.1));
        }
        CurveResult result = CurveFit.of(passes, settings);
        assertThat(only(result.notes(), NoteCode.COUNTS_TOO_COARSE).arguments()).containsExactly(Quantity.mm(0.5));
        Note peak = only(result.notes(), NoteCode.SPEED_NOT_REACHED);
        // sqrt(750 * 500) mm/s
        assertThat(((Quantity) peak.arguments().get(1)).value()).isBetween(612.3, 612.5);
    }

    @Test
    void scatterThatGrowsWithSpeedIsSmoothedAndSaid() {
        SplittableRandom random = new SplittableRandom(8);
        List<PassError> passes = new ArrayList<>();
        for (double speed : new double[] {20, 30, 45, 70, 105, 160, 240}) {
            for (int i = 0; i < 10; i++) {
                passes.add(pass("v" + speed, i, speed, (speed < 50 ? 0.3 : 0.02) * gauss(random)));
            }
        }
        CurveResult result = CurveFit.of(passes, new CurveSettings("felt", 0.01, 0, 0, 1, 400));
        only(result.notes(), NoteCode.SCATTER_DIFFERS_WITH_SPEED);
        List<CurvePoint> points = result.tested();
        assertThat(points.get(0).standardUncertainty())
                .isGreaterThan(4 * points.get(6).standardUncertainty());
    }

    @Test
    void aLadderOfSpeedsInOneRecordingIsNoDrift() {
        assertThat(ResidualChecks.notes(ladder(9, 1, 0), "felt", 0.05)).noneMatch(ResidualChecksTest::onOrderInSeries);
        assertThat(ResidualChecks.notes(ladder(9, 3, 0), "felt", 0.05)).noneMatch(ResidualChecksTest::onOrderInSeries);
    }

    @Test
    void aTrueDriftAlongARepeatedLadderIsTold() {
        Note drift = only(ResidualChecks.notes(ladder(10, 3, 0.02), "felt", 0.05), NoteCode.DRIFT_IN_SERIES);
        assertThat(((Quantity) drift.arguments().get(0)).value()).isBetween(0.018, 0.022);
    }

    @Test
    void cleanLaddersAreSeldomMarked() {
        int marked = 0;
        int trials = 300;
        for (int t = 0; t < trials; t++) {
            boolean any = ResidualChecks.notes(ladder(500 + t, 4, 0), "felt", 0.05).stream()
                    .anyMatch(note -> onOrderInSeries(note) || note.code() == NoteCode.RESIDUAL_OUTLIER);
            marked += any ? 1 : 0;
        }
        System.out.printf("seeds 500 to %d: clean ladders marked: %d of %d%n", 499 + trials, marked, trials);
        assertThat(marked / (double) trials).isLessThan(0.07);
    }

    @Test
    void oneStepOfRoundedReadingsIsNoOutlier() {
        List<PassError> passes = new ArrayList<>();
        for (int i = 0; i < 30; i++) {
            passes.add(pass("a", i, 100, i == 7 ? 0.2 : 0.1));
        }
        assertThat(ResidualChecks.notes(passes, "felt", 0.1)).isEmpty();
        passes.set(7, pass("a", 7, 100, 1.1));
        assertThat(only(ResidualChecks.notes(passes, "felt", 0.1), NoteCode.RESIDUAL_OUTLIER)
                        .where())
                .isEqualTo("a/8");
    }

    private static boolean onOrderInSeries(Note note) {
        return note.code() == NoteCode.DRIFT_IN_SERIES
                || note.code() == NoteCode.WARM_UP
                || note.code() == NoteCode.ORDER_NOT_RANDOM;
    }

    /** One recording from the fastest to the slowest speed, to and fro at each, so many times; curve of errors 1/v. */
    private static List<PassError> ladder(long seed, int times, double driftMm) {
        SplittableRandom random = new SplittableRandom(seed);
        List<PassError> out = new ArrayList<>();
        for (int time = 0; time < times; time++) {
            for (double speed : new double[] {400, 200, 100, 75, 50, 35, 25}) {
                for (int way = 0; way < 2; way++) {
                    int i = out.size();
                    out.add(pass("recording", i, speed, -500 / speed + driftMm * i + 0.02 * gauss(random)));
                }
            }
        }
        return out;
    }

    private static Note only(List<Note> notes, NoteCode code) {
        List<Note> own = notes.stream().filter(note -> note.code() == code).toList();
        assertThat(own).as("%s in %s", code, notes).hasSize(1);
        return own.get(0);
    }

    private static List<PassError> passes(long seed, double[] speeds, ToDoubleFunction<PassError> effect) {
        SplittableRandom random = new SplittableRandom(seed);
        List<PassError> out = new ArrayList<>();
        for (double speed : speeds) {
            for (int i = 0; i < 12; i++) {
                PassError plain = pass("v" + speed, i, speed, 0.3 + 0.02 * gauss(random));
                out.add(pass("v" + speed, i, speed, plain.errorMm() + effect.applyAsDouble(plain)));
            }
        }
        return out;
    }

    private static PassError pass(String series, int index, double speed, double errorMm) {
        return PassError.ofMove(
                series + "/" + (index + 1),
                series,
                index,
                index > 0,
                index % 2 == 0 ? 1 : -1,
                errorMm,
                750,
                speed,
                500,
                0.1);
    }

    private static double gauss(SplittableRandom random) {
        return Math.sqrt(-2 * Math.log(1 - random.nextDouble())) * Math.cos(2 * Math.PI * random.nextDouble());
    }
}
