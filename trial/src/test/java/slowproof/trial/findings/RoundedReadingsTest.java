package slowproof.trial.findings;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import slowproof.trial.Reference;
import slowproof.trial.Sensor;
import slowproof.trial.Series;
import slowproof.trial.Standstill;
import slowproof.trial.Trial;
import slowproof.trial.input.SourcePosition;

/** Clean trials on a display of 0.1 mm: two speeds, some cycles to and fro. Rounding alone must mark nothing. */
class RoundedReadingsTest {
    private static final long SEED = Long.getLong("slowproof.seed", 20261127);
    private static final int TRIALS = Integer.getInteger("slowproof.trials", 2000);
    private static final double STEP_MM = 0.1;
    private static final double[] SPEEDS = {60, 100};

    /** Counts of what was marked. */
    private static final class Tally {
        int groups;
        int outliers;
        int marked;
        int trials;
        int variances;

        void add(List<Pass> passes, int groupsTested) {
            List<Pass> seen = OutlierMarks.mark(passes);
            groups += groupsTested;
            outliers += count(seen, Flag.OUTLIER);
            marked += count(seen, Flag.OUTLIER) + count(seen, Flag.STRAGGLER);
            trials++;
            variances += MaterialScatter.of(passes).alike() ? 0 : 1;
        }

        private static int count(List<Pass> passes, Flag flag) {
            return (int)
                    passes.stream().filter(pass -> pass.flags().contains(flag)).count();
        }

        @Override
        public String toString() {
            return "Grubbs 1 %% %.4f, 5 %% %.4f of %d groups; Cochran 1 %% %.4f of %d trials"
                    .formatted(
                            outliers / (double) groups,
                            marked / (double) groups,
                            groups,
                            variances / (double) trials,
                            trials);
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.01, 0.03, 0.06, 0.1, 0.2, 0.4, 1})
    void cleanRoundedReadingsAreMarkedNoOftenerThanTheLevel(double scatterMm) {
        SplittableRandom random = new SplittableRandom(SEED);
        for (int cycles : new int[] {2, 3, 4, 6, 12}) {
            Tally plain = new Tally();
            Tally rounded = new Tally();
            for (int t = 0; t < TRIALS; t++) {
                List<Series> series = series(random, cycles, scatterMm, 0);
                int groups = cycles < 3 ? 0 : 2 * SPEEDS.length;
                plain.add(Passes.of(trial(series, false)), groups);
                rounded.add(Passes.of(trial(series, true)), groups);
            }
            System.out.printf(
                    "seed %d, scatter %.2f mm, %d cycles: as if continuous: %s%n    as rounded: %s%n",
                    SEED, scatterMm, cycles, plain, rounded);
            // 4 groups a trial; three standard deviations of chance above the level
            double chance = 3 * Math.sqrt(0.01 / TRIALS);
            assertThat(rounded.outliers).isLessThanOrEqualTo((int) ((0.01 + chance / 2) * rounded.groups));
            assertThat(rounded.marked).isLessThanOrEqualTo((int) ((0.05 + chance) * rounded.groups));
            assertThat(rounded.variances / (double) TRIALS).isLessThanOrEqualTo(0.01 + chance);
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {3, 4, 6})
    void aTrueOutlierOfTenStepsIsStillMarked(int cycles) {
        SplittableRandom random = new SplittableRandom(SEED);
        int found = 0;
        for (int t = 0; t < TRIALS; t++) {
            List<Pass> passes = OutlierMarks.mark(Passes.of(trial(series(random, cycles, 0.03, 10 * STEP_MM), true)));
            found += passes.get(2).flags().contains(Flag.OUTLIER) ? 1 : 0;
        }
        System.out.printf("seed %d, %d cycles: ten steps marked in %d of %d trials%n", SEED, cycles, found, TRIALS);
        assertThat(found).isGreaterThan((int) (0.95 * TRIALS));
    }

    @Test
    void oneDirectionThatScattersByTenStepsIsStillACochranOutlier() {
        List<Pass> passes =
                Passes.of(trial(List.of(cycles(60, 0, 0, 0, 0, 0, 0), cycles(100, 0, 0, 10, 0, 0, 0)), true));
        assertThat(MaterialScatter.of(passes).alike()).isFalse();
        List<Pass> counts =
                Passes.of(trial(List.of(cycles(60, 0, 0, 0, 0, 0, 0), cycles(100, 0, 0, 1, 0, 0, 0)), true));
        assertThat(MaterialScatter.of(counts).alike()).isTrue();
    }

    @Test
    void theCoarsestKnownStepCounts() {
        List<Series> series = List.of(cycles(60, 0, 0, 0, 0));
        assertThat(stepOf(series, new Sensor("", "", null, null, null))).isEqualTo(0.1);
        assertThat(stepOf(series, new Sensor("", "", 0.05, null, null))).isEqualTo(0.1);
        assertThat(stepOf(series, new Sensor("", "", 0.5, null, 0.2))).isEqualTo(0.5);
        assertThat(stepOf(series, new Sensor("", "", 0.05, null, 0.2))).isEqualTo(0.2);
    }

    private static double stepOf(List<Series> series, Sensor sensor) {
        return Passes.of(with(RandomTrials.of(series), sensor)).get(0).stepMm();
    }

    private static Trial trial(List<Series> series, boolean stepKnown) {
        List<Series> typed = stepKnown
                ? series
                : series.stream().map(RoundedReadingsTest::finer).toList();
        return with(RandomTrials.of(typed), new Sensor("", "", null, null, stepKnown ? STEP_MM : null));
    }

    private static Trial with(Trial trial, Sensor sensor) {
        return new Trial(
                trial.title(),
                sensor,
                new Reference("", Reference.Kind.AXIS, 0.02, 8.0, 2, null, null),
                trial.limit(),
                trial.stated(),
                trial.setup(),
                trial.rule(),
                trial.mode(),
                trial.series(),
                trial.recorded(),
                trial.pieces(),
                trial.exclusions());
    }

    /** The same figures as if a computer had made them with all their digits: no step is known. */
    private static Series finer(Series series) {
        return new Series(
                series.name(),
                series.material(),
                series.setup(),
                series.speedMmPerS(),
                series.accelerationMmPerS2(),
                series.standstills().stream()
                        .map(row -> row(row.referenceMm(), row.readingMm(), 9))
                        .toList());
    }

    private static List<Series> series(SplittableRandom random, int cycles, double scatterMm, double outlierMm) {
        List<Series> all = new ArrayList<>();
        for (double speed : SPEEDS) {
            double errorMm = random.nextDouble(-0.5, 0.5);
            List<Standstill> rows = new ArrayList<>();
            double truth = 0;
            double shift = random.nextDouble(0, STEP_MM);
            for (int i = 0; i <= 2 * cycles; i++) {
                if (i > 0) {
                    // a move of 900 mm that is misjudged; forward and return alike
                    double sign = i % 2 == 1 ? 1 : -1;
                    truth += sign * (900 + errorMm + scatterMm * gauss(random));
                    truth += i == 3 && speed == SPEEDS[0] ? outlierMm : 0;
                }
                double shown = Math.round((truth + shift) / STEP_MM) * STEP_MM;
                rows.add(row(i % 2 == 1 ? 900 : 0, Math.round(shown * 10) / 10.0, 1));
            }
            all.add(new Series("v" + speed, "felt", "", speed, null, rows));
        }
        return all;
    }

    /** Passes to and fro of 900 mm with these errors, in tenths of a millimetre. */
    private static Series cycles(double speed, int... errors) {
        List<Standstill> rows = new ArrayList<>();
        long reading = 0;
        rows.add(row(0, 0, 1));
        for (int i = 0; i < errors.length; i++) {
            reading += (i % 2 == 0 ? 1 : -1) * (9000L + errors[i]);
            rows.add(row(i % 2 == 0 ? 900 : 0, reading / 10.0, 1));
        }
        return new Series("v" + speed, "felt", "", speed, null, rows);
    }

    private static Standstill row(double referenceMm, double readingMm, int decimals) {
        return new Standstill(
                referenceMm, readingMm, decimals, null, null, null, null, "", SourcePosition.ofFile("rounded"));
    }

    private static double gauss(SplittableRandom random) {
        return Math.sqrt(-2 * Math.log(1 - random.nextDouble())) * Math.cos(2 * Math.PI * random.nextDouble());
    }
}
