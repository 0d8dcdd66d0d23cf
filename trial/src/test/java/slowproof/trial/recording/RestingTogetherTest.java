package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;

/**
 * References that are noisy, coarse or seldom written, down to 1 mm/s: the sensor tells when both rest, so that passes
 * are neither lost nor cut in pieces, and their errors are right. Truth is known by simulation.
 */
class RestingTogetherTest {
    private static final double Q = 0.05;
    private static final double SCALE = 0.002;
    private static final int PASSES = 6;

    /** What a reference shows in a log of 50 rows a second, with how far its travel may be off, in mm. */
    enum Shown {
        EXACT(0.001) {
            @Override
            double at(double[] positionMm, int row, SplittableRandom random) {
                return positionMm[row];
            }
        },
        HELD_FOR_A_TENTH(0.002) {
            @Override
            double at(double[] positionMm, int row, SplittableRandom random) {
                return positionMm[row - row % 5];
            }
        },
        HELD_FOR_HALF_A_SECOND(0.08) {
            @Override
            double at(double[] positionMm, int row, SplittableRandom random) {
                return Math.rint(100 * positionMm[row - row % 25]) / 100;
            }
        },
        STEPS_OF_A_MILLIMETRE(0.08) {
            @Override
            double at(double[] positionMm, int row, SplittableRandom random) {
                return Math.rint(positionMm[row]);
            }
        },
        NOISE_OF_A_COUNT(0.04) {
            @Override
            double at(double[] positionMm, int row, SplittableRandom random) {
                return positionMm[row] + 0.05 * random.nextGaussian();
            }
        },
        /** Two means over some 20 rows at least scatter by 0.1 mm; three times that is allowed. */
        NOISE_OF_SIX_COUNTS(0.3) {
            @Override
            double at(double[] positionMm, int row, SplittableRandom random) {
                return positionMm[row] + 0.3 * random.nextGaussian();
            }
        };

        private final double offMm;

        Shown(double offMm) {
            this.offMm = offMm;
        }

        abstract double at(double[] positionMm, int row, SplittableRandom random);
    }

    private static PassSearch search(Shown shown, double speed, double strokeMm, double restS) {
        SplittableRandom random = new SplittableRandom(7);
        Bench bench = new Bench(0.02, random.nextDouble(1));
        for (int pass = 0; pass < PASSES; pass++) {
            bench.rest(restS + random.nextDouble(0.5)).move(pass % 2 == 0 ? strokeMm : -strokeMm, speed, 200, 200);
        }
        Bench.Truth truth = bench.rest(restS).done();
        double[] reference = new double[truth.timeS().length];
        for (int i = 0; i < reference.length; i++) {
            reference[i] = shown.at(truth.positionMm(), i, random);
        }
        return PassFinder.find(
                RecordingAssembler.assemble(truth.logged(truth.counts(Q, SCALE), reference), SensorScale.ofCounts(Q)));
    }

    @ParameterizedTest
    @EnumSource
    void passesAreNeitherLostNorCutAndTheirErrorsAreRight(Shown shown) {
        for (double restS : new double[] {1, 2, 4}) {
            for (double speed : new double[] {1, 2, 5, 20, 100}) {
                double strokeMm = speed < 5 ? 20 : 100;
                PassSearch found = search(shown, speed, strokeMm, restS);
                String where = shown + ", " + speed + " mm/s, rest " + restS + " s";
                assertThat(found.passes()).as(where).hasSize(PASSES);
                // that the sensor told rest is told; 1 mm/s is less than twice what 2.5 counts within 0.5 s come to, so
                // is that
                assertThat(found.notes())
                        .extracting(Note::code)
                        .as(where)
                        .isSubsetOf(
                                speed > 1
                                        ? List.of(NoteCode.LOG_REST_BY_SENSOR)
                                        : List.of(NoteCode.LOG_REST_BY_SENSOR, NoteCode.LOG_REST_UNCLEAR));
                for (FoundPass pass : found.passes()) {
                    assertThat(pass.flags()).as(where).isEmpty();
                    assertThat(Math.abs(pass.indicationMm())).as(where).isCloseTo(strokeMm * (1 + SCALE), within(Q));
                    assertThat(Math.abs(pass.referenceMm())).as(where).isCloseTo(strokeMm, within(shown.offMm));
                    // steps of 1 mm within a stroke of 20 mm leave 5 percent
                    assertThat(pass.plateauSpeedMmPerS()).as(where).isCloseTo(speed, within(0.06 * speed));
                }
            }
        }
    }

    private static List<FoundPass> passes(Bench.Truth truth, double[] shownMm, double[] referenceMm) {
        double[] counts = new double[shownMm.length];
        for (int i = 0; i < counts.length; i++) {
            counts[i] = Math.floor(shownMm[i] / Q);
        }
        return PassFinder.find(RecordingAssembler.assemble(truth.logged(counts, referenceMm), SensorScale.ofCounts(Q)))
                .passes();
    }

    /** The sensor trembles by ten counts at every other rest, where the reference is as fine as can be or noisy. */
    @Test
    void aSensorThatTremblesAtSomeRestsLosesNone() {
        for (double noiseMm : new double[] {0.003, 0.05, 0.2}) {
            for (int seed = 1; seed <= 6; seed++) {
                SplittableRandom random = new SplittableRandom(seed);
                Bench bench = new Bench(0.02, random.nextDouble(1));
                for (int pass = 0; pass < 5; pass++) {
                    bench.rest(1).move(60, 50, 400, 400);
                }
                Bench.Truth truth = bench.rest(1).done();
                double[] shown = truth.positionMm().clone();
                double[] reference = truth.positionMm().clone();
                double phase = random.nextDouble(2.6);
                for (int i = 0; i < shown.length; i++) {
                    double t = truth.timeS()[i] + phase;
                    shown[i] += t % 2.6 < 1.3 ? 0.5 * Math.sin(2 * Math.PI * 9 * t) : 0;
                    reference[i] += noiseMm * random.nextGaussian();
                }
                assertThat(passes(truth, shown, reference))
                        .as("%s mm, seed %s", noiseMm, seed)
                        .hasSize(5);
            }
        }
    }

    /** Starts within one row, which the sensor shows a row later, after it drifted all the rest. */
    @Test
    void aSensorThatDriftsAndIsLateLosesNoRestOfAFineReference() {
        Bench bench = new Bench(0.05);
        for (int pass = 0; pass < 8; pass++) {
            bench.rest(1.5).hold(1, 200);
        }
        Bench.Truth truth = bench.rest(1.5).done();
        double[] shown = new double[truth.timeS().length];
        double[] reference = new double[shown.length];
        for (int i = 0; i < shown.length; i++) {
            shown[i] = truth.positionMm()[Math.max(i - 1, 0)] + 0.3 * truth.timeS()[i];
            reference[i] = Math.rint(1000 * truth.positionMm()[i]) / 1000;
        }
        assertThat(passes(truth, shown, reference)).hasSize(8);
    }

    /** What a display lags after the carriage stopped is no drift. */
    @Test
    void aDisplayThatLagsDoesNotDrift() {
        Bench bench = new Bench(0.01);
        for (int pass = 0; pass < 8; pass++) {
            bench.rest(2).move(500, 200, 400, 400);
        }
        Bench.Truth truth = bench.rest(2).done();
        double[] counts = new double[truth.timeS().length];
        double shown = truth.positionMm()[0];
        for (int i = 0; i < counts.length; i++) {
            shown += (truth.positionMm()[i] - shown) * 0.01 / 0.1;
            counts[i] = Math.floor(shown / Q);
        }
        PassSearch search = PassFinder.find(
                RecordingAssembler.assemble(truth.logged(counts, truth.positionMm()), SensorScale.ofCounts(Q)));
        assertThat(search.passes()).hasSize(8);
        assertThat(Objects.requireNonNull(search.drift()).significant()).isFalse();
    }
}
