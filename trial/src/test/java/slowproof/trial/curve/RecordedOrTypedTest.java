package slowproof.trial.curve;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.FoundPass;
import slowproof.trial.recording.LoggedColumns;
import slowproof.trial.recording.PassFinder;
import slowproof.trial.recording.RecordingAssembler;
import slowproof.trial.recording.RowLines;
import slowproof.trial.recording.SensorScale;
import slowproof.trial.scatter.PassError;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.Population;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.RecorderPlan;
import slowproof.trial.simulator.SeriesPlan;
import slowproof.trial.simulator.SimRecording;

/** The same bench, typed and recorded, says the same. */
class RecordedOrTypedTest {
    private static final long SEED = Long.getLong("slowproof.seed", 31_415);
    private static final int USUAL = 30;
    private static final int TRIALS = Integer.getInteger("slowproof.trials", USUAL);
    private static final double RATE_HZ = 100;
    private static final double COUNT_MM = 0.05;
    /** Two roundings to whole counts and twice three standard deviations of the reference's two readings. */
    private static final double ALLOWED_MM = 2 * COUNT_MM + 2 * 3 * Math.sqrt(2) * 0.002;

    /** Sums over benches. */
    private static final class Tally {
        int passes;
        int alike;
        int points;
        int near;
        int floors;
        int floorsNear;
        double largestMm;

        void add(Population.Sample sample, List<Double> speeds, int cycles, long seed) {
            BenchPlan plan = sample.plan(speeds, cycles);
            List<PassError> typed = SimulatedPasses.of(plan, sample.streams());
            List<PassError> recorded = new ArrayList<>();
            for (int s = 0; s < plan.series().size(); s++) {
                recorded.addAll(recorded(plan, s, sample.streams()));
            }
            assertThat(recorded).hasSameSizeAs(typed);
            for (int i = 0; i < typed.size(); i++) {
                double off = Math.abs(recorded.get(i).errorMm() - typed.get(i).errorMm());
                largestMm = Math.max(largestMm, off);
                passes++;
                alike += off <= ALLOWED_MM ? 1 : 0;
            }
            CurveSettings settings = new CurveSettings("surface", COUNT_MM, 0, 2.5e-6, seed, 600);
            CurveResult fromTyped = CurveFit.of(typed, settings);
            CurveResult fromRecorded = CurveFit.of(recorded, settings);
            List<CurvePoint> one = fromTyped.tested();
            List<CurvePoint> other = fromRecorded.tested();
            for (int i = 0; i < one.size(); i++) {
                double u = Math.hypot(
                        one.get(i).standardUncertainty(), other.get(i).standardUncertainty());
                points++;
                near += Math.abs(one.get(i).error() - other.get(i).error()) <= 2 * u ? 1 : 0;
            }
            FloorEstimate floorTyped = fromTyped.floor(sample.limitRatio());
            FloorEstimate floorRecorded = fromRecorded.floor(sample.limitRatio());
            assertThat(floorRecorded.status()).isEqualTo(floorTyped.status());
            Double estimate = floorRecorded.estimate();
            Double low = floorTyped.low();
            Double high = floorTyped.high();
            if (estimate != null && low != null && high != null) {
                floors++;
                floorsNear += estimate >= low && estimate <= high ? 1 : 0;
            }
        }
    }

    private static List<PassError> recorded(BenchPlan plan, int number, RandomStreams streams) {
        SeriesPlan series = plan.series().get(number);
        SimRecording sim = Bench.record(plan, number, RecorderPlan.oneClock(RATE_HZ), streams);
        LoggedColumns columns = new LoggedColumns(
                series.name() + ".csv",
                RowLines.from(2),
                Column.copyOf(sim.sensorTimeS()),
                Column.copyOf(Arrays.stream(sim.count()).asDoubleStream().toArray()),
                null,
                null,
                null,
                Column.copyOf(sim.axisPositionMm()),
                null);
        List<PassError> errors = new ArrayList<>();
        for (FoundPass pass : PassFinder.find(RecordingAssembler.assemble(columns, SensorScale.ofCounts(COUNT_MM)))
                .passes()) {
            int index = errors.size();
            errors.add(PassError.ofMove(
                    series.name() + "/" + (index + 1),
                    series.name(),
                    index,
                    index > 0,
                    (int) Math.signum(pass.referenceMm()),
                    pass.errorMm(),
                    Math.abs(pass.referenceMm()),
                    series.drive().speedMmPerS(),
                    series.drive().accelerationMmPerS2(),
                    Double.NaN));
        }
        return errors;
    }

    private static Tally run(int benches, double ratio, int cycles) {
        Tally tally = new Tally();
        for (int k = 0; k < benches; k++) {
            Population.Sample sample = Population.draw(RandomStreams.of(SEED).trial(k));
            tally.add(sample, BenchPlan.ladder(400, 8, ratio), cycles, SEED + k);
        }
        return tally;
    }

    private static void check(Tally tally) {
        assertThat(tally.alike)
                .as("errors of passes; the largest difference is %s mm", tally.largestMm)
                .isEqualTo(tally.passes);
        assertThat((double) tally.near / tally.points).isGreaterThanOrEqualTo(0.95);
        assertThat((double) tally.floorsNear / tally.floors).isGreaterThanOrEqualTo(0.95);
    }

    @Test
    void aBenchSaysTheSameTypedAndRecorded() {
        check(run(2, 2, 3));
    }

    @Test
    @Tag("long")
    void benchesSayTheSameTypedAndRecorded() {
        Tally tally = run(TRIALS, 1.5, 5);
        if (TRIALS >= USUAL) {
            StudiesPage.write(
                    "recordings and readings",
                    List.of(
                            "| figure | found | demanded |",
                            "|---|---|---|",
                            String.format(Locale.ROOT, "| passes compared | %d |  |", tally.passes),
                            String.format(
                                    Locale.ROOT,
                                    "| errors of passes alike within two counts and the reference's noise | %.4f | 1 |",
                                    (double) tally.alike / tally.passes),
                            String.format(
                                    Locale.ROOT, "| largest difference of two errors, mm | %.3f |  |", tally.largestMm),
                            String.format(
                                    Locale.ROOT,
                                    "| curve at the tested speeds alike within 2 u | %.4f | at least 0.95 |",
                                    (double) tally.near / tally.points),
                            String.format(
                                    Locale.ROOT,
                                    "| floor inside the other's 95 %% interval | %.4f | at least 0.95 |",
                                    (double) tally.floorsNear / tally.floors)));
        }
        check(tally);
    }
}
