package slowproof.trial.curve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import slowproof.trial.curve.FloorEstimate.Status;
import slowproof.trial.note.NoteCode;
import slowproof.trial.scatter.PassError;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.Population;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.spectrum.TravelSpectrum;

class CurveFitTest {
    private static final CurveSettings SETTINGS = new CurveSettings("felt", 0.05, 0.002, 2.5e-6, 7, 1000);
    private static final double[] LADDER = {10, 15, 22, 33, 50, 60, 75, 90, 110, 165, 250, 400};

    @Test
    void fitFollowsTheTruthAtEverySpeed() {
        ErrorCurve curve = curve(passes(CurveFitTest::knee, LADDER, 6, 0.02, 1));
        for (CurvePoint point : curve.tested()) {
            assertThat(point.error())
                    .as("at %s mm/s", point.speedMmPerS())
                    .isCloseTo(knee(point.speedMmPerS()), within(5 * point.standardUncertainty()));
            assertThat(point.low()).isLessThan(point.error());
            assertThat(point.high()).isGreaterThan(point.error());
        }
    }

    @Test
    void sameSeedGivesTheSameDrawsOnAnyThread() throws Exception {
        List<PassError> passes = passes(CurveFitTest::knee, LADDER, 6, 0.02, 2);
        ErrorCurve first = curve(passes);
        ExecutorService threads = Executors.newFixedThreadPool(4);
        try {
            List<Callable<ErrorCurve>> tasks = List.of(() -> curve(passes), () -> curve(passes), () -> curve(passes));
            for (Future<ErrorCurve> other : threads.invokeAll(tasks)) {
                for (int i = 0; i < 1000; i++) {
                    for (int k = 0; k < first.draws().nodes(); k++) {
                        assertThat(other.get().draws().at(i, k))
                                .isEqualTo(first.draws().at(i, k));
                    }
                }
            }
        } finally {
            threads.shutdownNow();
        }
    }

    @Test
    void keptDrawsGiveTheSameCurveAndOnlyForTheSamePassesAndSettings() {
        Map<String, double[]> kept = new HashMap<>();
        AtomicInteger found = new AtomicInteger();
        DrawStore store = new DrawStore() {
            @Override
            public double[] find(double[] from) {
                double[] drawn = kept.get(Arrays.toString(from));
                found.addAndGet(drawn == null ? 0 : 1);
                return drawn;
            }

            @Override
            public void keep(double[] from, double[] drawn) {
                kept.put(Arrays.toString(from), drawn.clone());
            }
        };
        List<PassError> passes = passes(CurveFitTest::knee, LADDER, 6, 0.02, 2);
        CurveResult plain = CurveFit.of(passes, SETTINGS);
        for (int i = 0; i < 2; i++) {
            CurveResult result = CurveFit.of(passes, SETTINGS, store);
            assertThat(found).hasValue(i);
            assertThat(result.curve().grid()).isEqualTo(plain.curve().grid());
            assertThat(result.curve().draws().numbers())
                    .containsExactly(plain.curve().draws().numbers());
            assertThat(result.floor(0.002)).isEqualTo(plain.floor(0.002));
        }
        CurveFit.of(passes(CurveFitTest::knee, LADDER, 6, 0.02, 3), SETTINGS, store);
        CurveFit.of(passes, new CurveSettings("felt", 0.06, 0.002, 2.5e-6, 7, 1000), store);
        CurveFit.of(passes, new CurveSettings("felt", 0.05, 0.003, 2.5e-6, 7, 1000), store);
        CurveFit.of(passes, new CurveSettings("felt", 0.05, 0.002, 2.6e-6, 7, 1000), store);
        CurveFit.of(passes, new CurveSettings("felt", 0.05, 0.002, 2.5e-6, 8, 1000), store);
        CurveFit.of(passes, new CurveSettings("felt", 0.05, 0.002, 2.5e-6, 7, 999), store);
        assertThat(found).hasValue(1);
    }

    @Test
    void orderOfThePassesDoesNotMatter() {
        List<PassError> passes = passes(CurveFitTest::knee, LADDER, 6, 0.02, 3);
        List<PassError> reversed = new ArrayList<>(passes);
        Collections.reverse(reversed);
        assertThat(curve(reversed).at(60)).isEqualTo(curve(passes).at(60));
    }

    @Test
    void mirroredErrorsGiveTheMirroredFloor() {
        FloorEstimate plain = CurveFit.of(passes(CurveFitTest::knee, LADDER, 6, 0.02, 4), SETTINGS)
                .floor(0.002);
        FloorEstimate mirrored = CurveFit.of(
                        passes(v -> -knee(v), LADDER, 6, 0.02, 4).stream()
                                .map(p -> withError(p, p.errorMm()))
                                .toList(),
                        SETTINGS)
                .floor(0.002);
        assertThat(plain.status()).isEqualTo(Status.FOUND);
        assertThat(mirrored.status()).isEqualTo(Status.FOUND);
        assertThat(mirrored.estimate()).isCloseTo(plain.estimate(), within(0.03 * plain.estimate()));
    }

    @Test
    void referenceUncertaintyIsCommonAndDoesNotAverageOut() {
        List<PassError> passes = passes(CurveFitTest::knee, LADDER, 12, 0.01, 5);
        ErrorCurve fine = CurveFit.of(passes, new CurveSettings("felt", 0.05, 0, 0, 7, 1000))
                .curve();
        ErrorCurve coarse = CurveFit.of(passes, new CurveSettings("felt", 0.05, 0, 3e-4, 7, 1000))
                .curve();
        assertThat(fine).isNotNull();
        assertThat(coarse).isNotNull();
        double alone = fine.at(250).standardUncertainty();
        assertThat(coarse.at(250).standardUncertainty()).isCloseTo(Math.hypot(alone, 3e-4), within(3e-5));
        // the same shift in all of a draw: the difference of two speeds does not know of it
        CurveDraws draws = coarse.draws();
        for (int i = 0; i < 100; i++) {
            double difference = draws.atSpeed(i, 400) - draws.atSpeed(i, 250);
            assertThat(difference)
                    .isCloseTo(fine.draws().atSpeed(i, 400) - fine.draws().atSpeed(i, 250), within(1e-12));
        }
    }

    @Test
    void floorSpeedOfAKnownCurveLiesInItsInterval() {
        FloorEstimate floor = CurveFit.of(passes(CurveFitTest::knee, LADDER, 6, 0.02, 6), SETTINGS)
                .floor(0.002);
        double truth = 60 + 8 * Math.log(0.02 / 0.0024 - 1);
        assertThat(floor.status()).isEqualTo(Status.FOUND);
        assertThat(floor.low()).isLessThanOrEqualTo(truth);
        assertThat(floor.high()).isGreaterThanOrEqualTo(truth);
        assertThat(floor.proven()).isBetween(floor.estimate(), floor.high());
        assertThat(floor.safe()).isBetween(floor.low(), 1.05 * floor.high());
    }

    @Test
    void wideLimitHoldsThroughoutAndTightOneNowhere() {
        CurveResult result = CurveFit.of(passes(v -> 0.001 + 1e-6 * v, LADDER, 6, 0.02, 8), SETTINGS);
        FloorEstimate wide = result.floor(0.01);
        assertThat(wide.status()).isEqualTo(Status.HOLDS_THROUGHOUT);
        assertThat(wide.proven()).isEqualTo(10);
        assertThat(wide.estimate()).isNull();
        FloorEstimate tight = result.floor(0.0002);
        assertThat(tight.status()).isEqualTo(Status.DOES_NOT_HOLD);
        assertThat(tight.proven()).isNull();
    }

    @Test
    void errorThatPassesThroughZeroHoldsInABand() {
        // -0.3 % at high speed, + at low speed: inside +-0.1 % only where it changes sign
        CurveResult result =
                CurveFit.of(passes(v -> -0.003 + 0.012 / (1 + Math.pow(v / 60, 3)), LADDER, 10, 0.01, 9), SETTINGS);
        FloorEstimate floor = result.floor(0.0012);
        assertThat(floor.status()).isEqualTo(Status.HOLDS_IN_A_BAND);
        // 0.012/(1 + (v/60)^3) = 0.0042 and 0.0018: v = 73.7 and 107.1 mm/s
        assertThat(floor.bandLow()).isBetween(73.7, 85.0);
        assertThat(floor.bandHigh()).isBetween(90.0, 107.1);
        assertThat(floor.proven()).isNull();
    }

    @Test
    void threeSpeedsGetABracketAndNoCurve() {
        CurveResult result =
                CurveFit.of(passes(CurveFitTest::knee, new double[] {35, 120, 250}, 10, 0.02, 10), SETTINGS);
        assertThat(result.curve()).isNull();
        assertThat(result.reason()).isEqualTo(CurveReason.THIN_TRIAL);
        FloorEstimate floor = result.floor(0.002);
        assertThat(floor.status()).isEqualTo(Status.BRACKET);
        assertThat(floor.low()).isEqualTo(35);
        assertThat(floor.high()).isEqualTo(120);
        assertThat(floor.estimate()).isNull();
        assertThat(result.draws()).isNotNull();
    }

    @Test
    void onePassGivesNoUncertaintyButStillAPoint() {
        CurveResult result = CurveFit.of(passes(CurveFitTest::knee, new double[] {250}, 1, 0.02, 11), SETTINGS);
        assertThat(result.tested()).hasSize(1);
        assertThat(result.tested().get(0).low()).isNaN();
        assertThat(result.draws()).isNull();
        assertThat(result.scaleError().reason()).isEqualTo(CurveReason.ONE_SPEED);
        assertThat(result.floor(0.002).status()).isEqualTo(Status.UNDECIDED);
    }

    @Test
    void humpIsOutsideTheFamilyAndFallsBackToTheBracket() {
        DoubleUnaryOperator hump = v -> 0.004 * Math.exp(-8 * Math.pow(Math.log(v / 60), 2));
        CurveResult result = CurveFit.of(passes(hump, LADDER, 10, 0.01, 12), SETTINGS);
        assertThat(result.curve()).isNull();
        assertThat(result.reason()).isEqualTo(CurveReason.OUTSIDE_FAMILY);
        assertThat(result.notes()).anyMatch(note -> note.code() == NoteCode.CURVE_OUTSIDE_FAMILY);
        FloorEstimate floor = result.floor(0.002);
        // 0.4 % at the hump, inside +-0.2 % from 80.6 mm/s on
        assertThat(floor.status()).isEqualTo(Status.BRACKET);
        assertThat(floor.low()).isLessThanOrEqualTo(80.6);
        assertThat(floor.high()).isBetween(80.6, 110.0);
    }

    @Test
    void scatterBetweenSeriesWidensTheBandInsteadOfHiding() {
        List<PassError> passes = new ArrayList<>();
        for (PassError pass : passes(CurveFitTest::knee, LADDER, 10, 0.01, 13)) {
            // every series has an offset of its own, far beyond its repeatability
            double offset = 0.12 * gauss(pass.series().hashCode());
            passes.add(withError(pass, pass.errorMm() + offset));
        }
        CurveResult result = CurveFit.of(passes, SETTINGS);
        ErrorCurve widened = result.curve();
        assertThat(widened).isNotNull();
        assertThat(widened.lackOfFit().widening()).isGreaterThan(3);
        assertThat(result.notes()).anyMatch(note -> note.code() == NoteCode.CURVE_LACK_OF_FIT);
        assertThat(widened.at(250).standardUncertainty())
                .isGreaterThan(2
                        * curve(passes(CurveFitTest::knee, LADDER, 10, 0.01, 13))
                                .at(250)
                                .standardUncertainty());
    }

    @Test
    void secondStrokeTellsTheStartLossFromTheScaleError() {
        List<PassError> passes = new ArrayList<>(passes(CurveFitTest::knee, LADDER, 10, 0.01, 14));
        passes.addAll(passes(CurveFitTest::knee, new double[] {110, 400}, 20, 0.01, 15, 150, "short "));
        List<PassError> losing = passes.stream()
                .map(pass -> withError(pass, pass.errorMm() - 0.08))
                .toList();
        CurveResult result = CurveFit.of(losing, SETTINGS);
        assertThat(result.startLossMm()).isNotNull();
        assertThat(result.startLossMm().value()).isCloseTo(-0.08, within(0.02));
        assertThat(result.startLossMm().low()).isLessThan(-0.08);
        assertThat(result.startLossMm().high()).isGreaterThan(-0.08);
        assertThat(result.curve()).isNotNull();
        assertThat(result.curve().at(400).error()).isCloseTo(0.0004, within(6e-5));
        assertThat(CurveFit.of(passes(CurveFitTest::knee, LADDER, 10, 0.01, 14), SETTINGS)
                        .startLossMm())
                .isNull();
    }

    @Test
    void scaleErrorOfThePlateauIsTakenOutOfTheCurve() {
        CurveResult result = CurveFit.of(passes(CurveFitTest::knee, LADDER, 10, 0.01, 16), SETTINGS);
        ScaleError scale = result.scaleError();
        assertThat(scale.value()).isCloseTo(0.0004, within(4e-5));
        assertThat(scale.corrected()).isNotNull();
        CurvePoint corrected = scale.corrected().at(400);
        assertThat(corrected.error()).isCloseTo(0, within(4e-5));
        // u_ref = 2.5 ppm + 0.002 mm / 750 mm stays in full
        assertThat(corrected.standardUncertainty()).isGreaterThan(2.5e-6 + 0.002 / 750);
    }

    @Test
    void slopeAtTheTopMeansNoPlateau() {
        CurveResult result = CurveFit.of(passes(v -> -0.05 / (1 + v / 40), LADDER, 10, 0.01, 17), SETTINGS);
        assertThat(result.scaleError().value()).isNull();
        assertThat(result.scaleError().reason()).isEqualTo(CurveReason.NO_PLATEAU);
    }

    @Test
    void compensationCountsRepeatabilityCorrectionAndSpeed() {
        CurveResult result = CurveFit.of(passes(CurveFitTest::knee, LADDER, 10, 0.03, 18), SETTINGS);
        Compensation atKnee = result.compensation(0.05, 5).stream()
                .filter(c -> c.speedMmPerS() == 60)
                .findFirst()
                .orElseThrow();
        assertThat(atKnee.asFound()).isCloseTo(0.0096, within(3e-4));
        assertThat(atKnee.repeatability()).isCloseTo(0.03 / 750, within(2e-5));
        assertThat(atKnee.unseen()).isBetween(0.02 / 750, 0.06 / 750);
        // |eps(57) - eps(60)| and |eps(63) - eps(60)| are both 0.00183; divided by sqrt 3
        assertThat(atKnee.sensitivity()).isCloseTo(0.00183 / Math.sqrt(3), within(1.5e-4));
        assertThat(atKnee.remaining())
                .isCloseTo(
                        Math.sqrt(Math.pow(atKnee.unseen(), 2)
                                + Math.pow(atKnee.sensitivity(), 2)
                                + Math.pow(2.5e-6 + 0.002 / 750, 2)),
                        within(1e-12));
        assertThat(atKnee.reason()).isNull();
    }

    @Test
    void dropoutsVoidTheCompensation() {
        List<PassError> passes = passes(CurveFitTest::knee, LADDER, 10, 0.03, 19).stream()
                .map(p -> withDropout(p, p.speedMmPerS() < 20 ? 12 : 0.1))
                .toList();
        List<Compensation> all = CurveFit.of(passes, SETTINGS).compensation(0.05, 5);
        assertThat(all).filteredOn(c -> c.speedMmPerS() < 20).allMatch(c -> c.reason() == CurveReason.DROPOUTS);
        assertThat(all).filteredOn(c -> c.speedMmPerS() > 20).allMatch(c -> c.reason() == null);
    }

    @Test
    void simulatedSmoothBenchIsInvertedByTheClosedForm() {
        // d eps = dE / (S - V^2/a): Volterra equation of the second kind, answered in closed form for noiseless errors
        double stroke = 1000;
        double acceleration = 500;
        double[] speeds = new double[400];
        for (int i = 0; i < speeds.length; i++) {
            speeds[i] = 20 + i;
        }
        double error = TravelSpectrum.move(stroke, speeds[0], acceleration).integral(CurveFitTest::knee);
        double eps = knee(speeds[0]);
        for (int i = 1; i < speeds.length; i++) {
            double next = TravelSpectrum.move(stroke, speeds[i], acceleration).integral(CurveFitTest::knee);
            double middle = 0.5 * (speeds[i] + speeds[i - 1]);
            eps += (next - error) / (stroke - middle * middle / acceleration);
            error = next;
        }
        assertThat(eps).isCloseTo(knee(speeds[399]), within(2e-7));
        // the fit, given the same bench at ladder speeds without noise, agrees with it
        ErrorCurve curve = curve(passes(CurveFitTest::knee, LADDER, 6, 1e-4, 20));
        assertThat(curve.at(400).error()).isCloseTo(knee(400), within(5e-5));
    }

    @Test
    void drawsForecastTheErrorOfAnyMotion() {
        CurveDraws draws =
                curve(passes(CurveFitTest::knee, LADDER, 10, 0.01, 22)).draws();
        TravelSpectrum line = TravelSpectrum.move(2500, 300, 400).plus(TravelSpectrum.atSpeed(55, 120));
        double[] errors = draws.errorsMm(line, 1);
        double mean = Arrays.stream(errors).average().orElseThrow();
        // -0.51 mm, from the 120 mm at 55 mm/s mostly
        assertThat(mean).isCloseTo(line.integral(CurveFitTest::knee), within(0.03));
        for (int i = 0; i < 20; i++) {
            int draw = i;
            assertThat(errors[i]).isCloseTo(line.integral(v -> draws.atSpeed(draw, v)), within(1e-4));
        }
    }

    @Test
    void outOfRangeSpeedsAreRefused() {
        ErrorCurve curve = curve(passes(CurveFitTest::knee, LADDER, 6, 0.02, 21));
        assertThatIllegalArgumentException().isThrownBy(() -> curve.at(9)).withMessageContaining("not tested at 9");
        assertThatIllegalArgumentException().isThrownBy(() -> CurveFit.of(List.of(), SETTINGS));
    }

    @Test
    void simulatedBenchOfThePopulationIsFitted() {
        Population.Sample sample = Population.draw(RandomStreams.of(41).trial(3));
        List<PassError> passes = SimulatedPasses.of(sample.plan(), sample.streams());
        CurveResult result = CurveFit.of(passes, new CurveSettings("surface", 0.05, 0, 2.5e-6, 1, 1000));
        assertThat(result.curve()).isNotNull();
        assertThat(result.tested()).hasSize(BenchPlan.ladder(400, 8, 1.25).size());
        assertThat(result.notes()).anyMatch(note -> note.code() == NoteCode.ORDER_CONFOUNDED);
    }

    private static double knee(double speed) {
        return 0.0004 - 0.02 / (1 + Math.exp((speed - 60) / 8));
    }

    private static ErrorCurve curve(List<PassError> passes) {
        ErrorCurve curve = CurveFit.of(passes, SETTINGS).curve();
        assertThat(curve).isNotNull();
        return curve;
    }

    private static List<PassError> passes(
            DoubleUnaryOperator eps, double[] speeds, int passes, double scatterMm, int seed) {
        return passes(eps, speeds, passes, scatterMm, seed, 750, "");
    }

    /** Alternating passes with scatter and readings rounded to 0.05 mm; errors are integrals over the move. */
    static List<PassError> passes(
            DoubleUnaryOperator eps,
            double[] speeds,
            int passes,
            double scatterMm,
            int seed,
            double strokeMm,
            String prefix) {
        SplittableRandom random = new SplittableRandom(seed);
        List<PassError> out = new ArrayList<>();
        for (double speed : speeds) {
            double mean = TravelSpectrum.move(strokeMm, speed, 500).integral(eps);
            double position = 100 * random.nextDouble();
            double reading = 0.05 * Math.floor(position / 0.05);
            for (int i = 0; i < passes; i++) {
                int direction = i % 2 == 0 ? 1 : -1;
                position += direction * (strokeMm + mean + scatterMm * gauss(random));
                double next = 0.05 * Math.floor(position / 0.05);
                out.add(PassError.ofMove(
                        prefix + speed + "/" + (i + 1),
                        prefix + speed,
                        i,
                        i > 0,
                        direction,
                        direction * (next - reading) - strokeMm,
                        strokeMm,
                        speed,
                        500,
                        0.1));
                reading = next;
            }
        }
        return out;
    }

    private static double gauss(int seed) {
        return gauss(new SplittableRandom(seed));
    }

    private static double gauss(SplittableRandom random) {
        return Math.sqrt(-2 * Math.log(1 - random.nextDouble())) * Math.cos(2 * Math.PI * random.nextDouble());
    }

    private static PassError withError(PassError p, double errorMm) {
        return new PassError(
                p.id(),
                p.series(),
                p.indexInSeries(),
                p.sharesReadingWithPrevious(),
                p.direction(),
                errorMm,
                p.travelMm(),
                p.speedMmPerS(),
                p.accelerationMmPerS2(),
                p.starts(),
                p.dropoutPct(),
                p.spectrum());
    }

    private static PassError withDropout(PassError p, double dropoutPct) {
        return new PassError(
                p.id(),
                p.series(),
                p.indexInSeries(),
                p.sharesReadingWithPrevious(),
                p.direction(),
                p.errorMm(),
                p.travelMm(),
                p.speedMmPerS(),
                p.accelerationMmPerS2(),
                p.starts(),
                dropoutPct,
                p.spectrum());
    }
}
