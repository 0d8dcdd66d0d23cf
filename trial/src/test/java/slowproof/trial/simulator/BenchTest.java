package slowproof.trial.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.hipparchus.stat.descriptive.DescriptiveStatistics;
import org.junit.jupiter.api.Test;

class BenchTest {
    private static final SimReference PERFECT = new SimReference(0, 0, 1e-6);
    private static final long SEED = Long.getLong("slowproof.seed", 20_260);

    private static BenchReadings read(SeriesPlan series, double countMm) {
        return Bench.read(BenchPlan.of(List.of(series), SimSensor.of(countMm), PERFECT), RandomStreams.of(SEED));
    }

    private static List<Double> errors(BenchReadings bench) {
        List<Double> errors = new ArrayList<>();
        for (int i = 1; i < bench.readings().size(); i++) {
            SimReading now = bench.readings().get(i);
            SimReading before = bench.readings().get(i - 1);
            double reference = now.referenceMm() - before.referenceMm();
            errors.add(Math.signum(reference) * (now.readingMm() - before.readingMm() - reference));
        }
        return errors;
    }

    private static TrueMaterial scaled(double ratio) {
        return TrueMaterial.of("scaled", v -> ratio);
    }

    @Test
    void overReadingIsPositiveInBothDirections() {
        List<Double> errors = errors(read(SeriesPlan.alternating("a", scaled(0.01), 500, Drive.of(50, 500), 3), 0.001));
        assertThat(errors).hasSize(6).allSatisfy(e -> assertThat(e).isCloseTo(5, within(0.001)));
    }

    @Test
    void startLossIsLostInBothDirectionsAndAtEachStop() {
        SeriesPlan plain = SeriesPlan.alternating("a", scaled(0).withStart(-0.3, 0), 500, Drive.of(50, 500), 2);
        assertThat(errors(read(plain, 0.001)))
                .hasSize(4)
                .allSatisfy(e -> assertThat(e).isCloseTo(-0.3, within(0.001)));
        BenchReadings stopAndGo = read(plain.withMovesPerStroke(5), 0.001);
        assertThat(errors(stopAndGo)).hasSize(20).allSatisfy(e -> assertThat(e).isCloseTo(-0.3, within(0.001)));
        assertThat(stopAndGo.readings().get(5).referenceMm()).isEqualTo(500);
        assertThat(stopAndGo.readings().get(10).referenceMm()).isZero();
    }

    @Test
    void returnExtraActsOnReturnPassesOnly() {
        List<Double> errors = errors(
                read(SeriesPlan.alternating("a", scaled(0).withReturnExtra(0.002), 500, Drive.of(50, 500), 1), 0.001));
        assertThat(errors.get(0)).isCloseTo(0, within(0.0011));
        assertThat(errors.get(1)).isCloseTo(1, within(0.0011));
    }

    @Test
    void oneWaySeriesRunsOn() {
        BenchReadings bench = read(SeriesPlan.oneWay("a", scaled(0), 500, Drive.of(50, 500), 4), 0.05);
        assertThat(bench.readings())
                .extracting(SimReading::referenceMm)
                .containsExactly(0.0, 500.0, 1000.0, 1500.0, 2000.0);
    }

    @Test
    void countingNeverErrsByACountOrMore() {
        double q = 0.7;
        TrueMaterial material = DemoPlant.fabric();
        BenchReadings bench = read(SeriesPlan.alternating("a", material, 333.3, Drive.of(60, 500), 500), q);
        List<Double> errors = errors(bench);
        for (int i = 0; i < errors.size(); i++) {
            assertThat(errors.get(i) - bench.passes().get(i).errorMm()).isBetween(-q, q);
        }
        assertThat(bench.readings()).allSatisfy(r -> {
            assertThat(r.readingMm() / q).isCloseTo(Math.rint(r.readingMm() / q), within(1e-9));
        });
    }

    @Test
    void readingsAtSharedStandstillsGiveTheCovarianceOfTwoRoundings() {
        // rounding of one reading has variance q^2 / 12: a pass has q^2 / 6, neighbouring passes in opposite
        // directions share a reading and so +q^2 / 12 (error signed by travel). The true error must spread over
        // several counts.
        double q = 0.05;
        TrueMaterial material = scaled(0.001).withStart(0, 0.4);
        BenchReadings bench = read(SeriesPlan.alternating("a", material, 333.3, Drive.of(200, 500), 20_000), q);
        List<Double> errors = errors(bench);
        double variance = 0;
        double neighbours = 0;
        double before = 0;
        for (int i = 0; i < errors.size(); i++) {
            double rounding = errors.get(i) - bench.passes().get(i).errorMm();
            variance += rounding * rounding / errors.size();
            neighbours += rounding * before / errors.size();
            before = rounding;
        }
        // relative standard deviation of these sums is about 1 / sqrt(40 000) = 0.5 %
        assertThat(variance).isCloseTo(q * q / 6, within(0.03 * q * q / 6));
        assertThat(neighbours).isCloseTo(q * q / 12, within(0.05 * q * q / 12));
    }

    @Test
    void startScatterDoesNotGrowWithTravelAndTravelScatterGrowsWithItsSquareRoot() {
        TrueMaterial material = scaled(0).withStart(0.1, 0.03).withTravelScatter(0.05);
        for (double stroke : new double[] {100, 4000}) {
            BenchReadings bench = read(SeriesPlan.alternating("a", material, stroke, Drive.of(400, 500), 10_000), 0.01);
            DescriptiveStatistics errors = new DescriptiveStatistics();
            bench.passes().forEach(pass -> errors.addValue(pass.errorMm()));
            double expected = 0.03 * 0.03 + 0.05 * 0.05 * stroke / 1000;
            // 20 000 normal draws: variance known to 1 %, mean to sd / 141; four times that is allowed
            assertThat(errors.getVariance()).isCloseTo(expected, within(0.04 * expected));
            assertThat(errors.getMean()).isCloseTo(0.1, within(4 * Math.sqrt(expected) / 141));
            assertThat(errors.getKurtosis()).isCloseTo(0, within(0.15));
            assertThat(errors.getSkewness()).isCloseTo(0, within(0.08));
        }
    }

    @Test
    void scatterFactorWidensTheScatterBelowItsKnee() {
        TrueMaterial material = scaled(0).withStart(0, 0.02).withScatterFactor(new SlowRise(1, 3, 50, 0.1));
        double slow = sd(read(SeriesPlan.alternating("a", material, 100, Drive.of(10, 500), 5_000), 0.01));
        double fast = sd(read(SeriesPlan.alternating("a", material, 100, Drive.of(150, 500), 5_000), 0.01));
        assertThat(slow).isCloseTo(0.06, within(0.003));
        assertThat(fast).isCloseTo(0.02, within(0.001));
    }

    private static double sd(BenchReadings bench) {
        DescriptiveStatistics errors = new DescriptiveStatistics();
        bench.passes().forEach(pass -> errors.addValue(pass.errorMm()));
        return errors.getStandardDeviation();
    }

    @Test
    void oneStripRepeatsItsTextureAndHidesItFromTheScatter() {
        TrueMaterial material = scaled(0).withTravelScatter(0.2).withTexture(1);
        SeriesPlan one = SeriesPlan.alternating("a", material, 1000, Drive.of(400, 500), 3_000);
        assertThat(sd(read(one, 0.01))).isLessThan(1e-12);
        BenchReadings many = read(one.withTracks(3_000), 0.01);
        assertThat(sd(many)).isCloseTo(0.2, within(0.02));
        // a cycle goes forth and back over one strip, which errs alike in both directions
        for (int i = 0; i < many.passes().size(); i += 2) {
            assertThat(many.passes().get(i).errorMm())
                    .isCloseTo(many.passes().get(i + 1).errorMm(), within(1e-12));
        }
        assertThat(sd(read(SeriesPlan.oneWay("a", material, 1000, Drive.of(400, 500), 3_000), 0.01)))
                .isCloseTo(0.2, within(0.02));
    }

    @Test
    void texturedPartsOfAStrokeComeBackInTheOtherOrder() {
        TrueMaterial material = scaled(0).withTravelScatter(0.2).withTexture(1);
        SeriesPlan plan = SeriesPlan.alternating("a", material, 1000, Drive.of(400, 500), 1)
                .withMovesPerStroke(4);
        List<PassTruth> passes = read(plan, 0.01).passes();
        for (int i = 0; i < 4; i++) {
            assertThat(passes.get(i).errorMm())
                    .isNotZero()
                    .isCloseTo(passes.get(7 - i).errorMm(), within(1e-12));
        }
    }

    @Test
    void tracksTakeTurnsAndAreNamed() {
        SeriesPlan plan = SeriesPlan.alternating("a", scaled(0), 100, Drive.of(400, 500), 3);
        assertThat(read(plan, 0.01).readings()).extracting(SimReading::track).containsOnly("");
        assertThat(read(plan.withTracks(2), 0.01).readings())
                .extracting(SimReading::track)
                .containsExactly("", "1", "1", "2", "2", "1", "1");
    }

    @Test
    void seriesScatterIsDrawnOncePerSeries() {
        TrueMaterial material = scaled(0).withSeriesScatter(1e-3);
        List<SeriesPlan> series = IntStream.range(0, 2_000)
                .mapToObj(i -> SeriesPlan.alternating("s" + i, material, 1000, Drive.of(400, 500), 1))
                .toList();
        BenchReadings bench = Bench.read(BenchPlan.of(series, SimSensor.of(0.05), PERFECT), RandomStreams.of(SEED));
        DescriptiveStatistics forward = new DescriptiveStatistics();
        for (int i = 0; i < bench.passes().size(); i += 2) {
            forward.addValue(bench.passes().get(i).errorMm());
            assertThat(bench.passes().get(i + 1).errorMm())
                    .isCloseTo(bench.passes().get(i).errorMm(), within(1e-9));
        }
        assertThat(forward.getStandardDeviation()).isCloseTo(1.0, within(0.06));
    }

    @Test
    void referenceScaleErrorIsCommonToTheTrialAndKnown() {
        SimReference reference = new SimReference(0, 1e-4, 1e-6);
        SeriesPlan a = SeriesPlan.alternating("a", scaled(0), 1000, Drive.of(400, 500), 1);
        SeriesPlan b = SeriesPlan.alternating("b", scaled(0), 1000, Drive.of(100, 500), 1);
        BenchReadings bench =
                Bench.read(BenchPlan.of(List.of(a, b), SimSensor.of(0.05), reference), RandomStreams.of(SEED));
        assertThat(bench.referenceScaleErrorRatio()).isNotZero();
        double far = 1000 * (1 + bench.referenceScaleErrorRatio());
        assertThat(bench.readings().get(1).referenceMm()).isCloseTo(far, within(1e-6));
        assertThat(bench.readings().get(4).referenceMm()).isCloseTo(far, within(1e-6));
    }

    @Test
    void driftsOfScaleAndAtRestAddUpWithTime() {
        SimSensor warming = SimSensor.of(0.001).withScaleDrift(0.01);
        SeriesPlan series = SeriesPlan.alternating("a", scaled(0), 1000, Drive.of(10, 500), 1);
        BenchReadings bench = Bench.read(BenchPlan.of(List.of(series), warming, PERFECT), RandomStreams.of(SEED));
        double leftS = bench.passes().get(1).leftRestS();
        assertThat(leftS).isCloseTo(1000.0 / 10 + 10.0 / 500 + 1, within(1e-9));
        assertThat(bench.passes().get(1).errorMm()).isCloseTo(1000 * 0.01 * leftS / 3600, within(1e-9));

        SimSensor creeping = SimSensor.of(0.001).withStandstillDrift(6);
        assertThat(errors(Bench.read(BenchPlan.of(List.of(series), creeping, PERFECT), RandomStreams.of(SEED)))
                        .get(0))
                .isCloseTo(6.0 / 60, within(0.002));
    }

    @Test
    void stopScatterMovesThePositionButIsNoError() {
        BenchPlan plan = new BenchPlan(
                List.of(SeriesPlan.alternating("a", scaled(0.01), 500, Drive.of(50, 500), 100)),
                SimSensor.of(0.001),
                PERFECT,
                0.5,
                1,
                0,
                null);
        BenchReadings bench = Bench.read(plan, RandomStreams.of(SEED));
        List<Double> errors = errors(bench);
        DescriptiveStatistics ends = new DescriptiveStatistics();
        for (int i = 0; i < errors.size(); i++) {
            ends.addValue(Math.abs(bench.passes().get(i).travelMm()));
            assertThat(errors.get(i))
                    .isCloseTo(0.01 * Math.abs(bench.passes().get(i).travelMm()), within(0.0011));
        }
        assertThat(ends.getStandardDeviation()).isCloseTo(0.5 * Math.sqrt(2), within(0.15));
    }

    @Test
    void displayRoundsToItsOwnStep() {
        SimSensor display = SimSensor.of(0.05).withReadingResolution(1);
        SeriesPlan series = SeriesPlan.alternating("a", scaled(0.01), 333.3, Drive.of(50, 500), 3);
        BenchReadings bench = Bench.read(BenchPlan.of(List.of(series), display, PERFECT), RandomStreams.of(SEED));
        assertThat(bench.readings())
                .extracting(SimReading::readingMm)
                .allSatisfy(r -> assertThat(r).isEqualTo(Math.rint(r)));
    }

    @Test
    void roundedValuesPrintWithoutDigitsOfRepresentation() {
        assertThat(Double.toString(Rounding.toStep(878.0499, 0.05))).isEqualTo("878.05");
        assertThat(Double.toString(Rounding.toStep(0.1 + 0.2, 0.01))).isEqualTo("0.3");
        assertThat(Double.toString(Rounding.toStep(-0.001, 0.05))).isEqualTo("0.0");
        assertThat(Rounding.toStep(1.1, 0.7)).isCloseTo(1.4, within(1e-12));
        assertThat(Rounding.toStep(Double.NaN, 0.05)).isNaN();
    }

    @Test
    void timesAdvanceByMoveDwellAndChangeover() {
        Instant start = Instant.parse("2026-03-02T08:00:00Z");
        SeriesPlan a = SeriesPlan.alternating("a", scaled(0), 1000, Drive.of(100, 500), 1);
        SeriesPlan b = SeriesPlan.alternating("b", scaled(0), 1000, Drive.of(100, 500), 1);
        BenchPlan plan = new BenchPlan(List.of(a, b), SimSensor.of(0.05), PERFECT, 0, 2, 30, start);
        List<SimReading> readings = Bench.read(plan, RandomStreams.of(SEED)).readings();
        double passS = 10.2 + 2;
        assertThat(readings.get(0).time()).isEqualTo(start);
        assertThat(readings.get(2).time()).isEqualTo(start.plusMillis(Math.round(2000 * passS)));
        assertThat(readings.get(3).time()).isEqualTo(start.plusMillis(Math.round(2000 * passS + 30_000)));
    }

    @Test
    void dropoutShareRisesBelowItsKneeAndCanDragTheErrorAlong() {
        SlowRise share = new SlowRise(0.002, 0.1, 50, 0.1);
        TrueMaterial independent = scaled(0).withDropouts(new Dropouts(share, 0.3, 0.02, 0));
        TrueMaterial lossy = scaled(0).withDropouts(new Dropouts(share, 0.3, 0.02, -1));
        BenchReadings slow = read(SeriesPlan.alternating("a", independent, 1000, Drive.of(10, 500), 2_000), 0.05);
        BenchReadings fast = read(SeriesPlan.alternating("a", independent, 1000, Drive.of(200, 500), 2_000), 0.05);
        assertThat(meanShare(slow)).isCloseTo(0.1, within(0.003));
        assertThat(meanShare(fast)).isBetween(0.002, 0.01);
        assertThat(slow.readings().get(0).dropoutPct()).isNaN();
        assertThat(slow.passes()).allSatisfy(p -> assertThat(p.errorMm()).isZero());
        BenchReadings dragged = read(SeriesPlan.alternating("a", lossy, 1000, Drive.of(10, 500), 200), 0.05);
        assertThat(dragged.passes())
                .allSatisfy(p -> assertThat(p.errorMm()).isCloseTo(-1000 * (p.dropoutShare() - 0.1), within(0.2)));
    }

    private static double meanShare(BenchReadings bench) {
        return bench.passes().stream()
                .mapToDouble(PassTruth::dropoutShare)
                .average()
                .orElseThrow();
    }

    @Test
    void sameSeedGivesSameDataAndAnotherSeedOtherData() {
        BenchReadings first = Bench.read(DemoPlant.plan(null), RandomStreams.of(SEED));
        assertThat(Bench.read(DemoPlant.plan(null), RandomStreams.of(SEED))).isEqualTo(first);
        assertThat(Bench.read(DemoPlant.plan(null), RandomStreams.of(SEED + 1))).isNotEqualTo(first);
        assertThat(Bench.read(DemoPlant.plan(null), RandomStreams.of(SEED).trial(1)))
                .isNotEqualTo(first);
    }

    @Test
    void seriesDoNotDependOnWhatFollowsThem() {
        BenchPlan whole = DemoPlant.plan(null);
        BenchPlan part = BenchPlan.of(whole.series().subList(0, 3), whole.sensor(), whole.reference());
        BenchPlan all = BenchPlan.of(whole.series(), whole.sensor(), whole.reference());
        List<SimReading> few = Bench.read(part, RandomStreams.of(SEED)).readings();
        assertThat(Bench.read(all, RandomStreams.of(SEED)).readings().subList(0, few.size()))
                .isEqualTo(few);
    }

    @Test
    void shuffledPlanRunsTheSameSeriesInAnotherOrder() {
        BenchPlan plan = DemoPlant.plan(null);
        BenchPlan shuffled = plan.shuffled(SEED);
        assertThat(shuffled.series()).isNotEqualTo(plan.series()).containsExactlyInAnyOrderElementsOf(plan.series());
        assertThat(plan.shuffled(SEED)).isEqualTo(shuffled);
    }

    @Test
    void ladderGoesDownFromTheFastEndByItsRatio() {
        List<Double> ladder = BenchPlan.ladder(400, 8, 1.25);
        assertThat(ladder).hasSize(18).isSorted();
        assertThat(ladder.get(17)).isEqualTo(400);
        assertThat(ladder.get(0)).isCloseTo(400 / Math.pow(1.25, 17), within(1e-12));
        assertThat(BenchPlan.ladder(80, 10, 2)).containsExactly(10.0, 20.0, 40.0, 80.0);
    }

    @Test
    void impossiblePlansAreRefused() {
        SeriesPlan a = SeriesPlan.alternating("a", scaled(0), 100, Drive.of(10, 100), 1);
        assertThatThrownBy(() -> BenchPlan.of(List.of(a, a), SimSensor.of(0.05), PERFECT))
                .hasMessageContaining("unique");
        assertThatThrownBy(() -> BenchPlan.of(List.of(), SimSensor.of(0.05), PERFECT))
                .hasMessageContaining("at least one series");
        assertThatThrownBy(() -> SimSensor.of(Double.NaN)).hasMessageContaining("distance per count");
    }
}
