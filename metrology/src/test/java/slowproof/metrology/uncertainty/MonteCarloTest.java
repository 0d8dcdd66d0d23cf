package slowproof.metrology.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;
import slowproof.metrology.sampling.BlockStreams;
import slowproof.metrology.sampling.Moments;
import slowproof.metrology.sampling.Points;
import slowproof.metrology.sampling.UniformTransform;
import slowproof.metrology.sampling.VectorSource;

class MonteCarloTest {

    private static final MonteCarloSettings SETTINGS = MonteCarloSettings.of(20);

    private static final UncertaintyModel SUM = UncertaintyModel.of(
            List.of(Input.of("a", Normal.of(10, 3)), Input.of("b", Rectangular.about(-1, 4 * Math.sqrt(3)))),
            x -> x[0] + x[1]);

    @Test
    void meanAndDeviationAreThoseOfTheModel() {
        MonteCarloResult result = MonteCarlo.fixed(SUM, 200_000, SETTINGS);
        assertThat(result.trials()).isEqualTo(200_000);
        assertThat(result.stable()).isTrue();
        assertThat(result.coverageProbability()).isEqualTo(0.95);
        // standard errors 0.011 and 0.007
        assertThat(result.estimate()).isCloseTo(9, within(0.05));
        assertThat(result.standardUncertainty()).isCloseTo(5, within(0.03));
    }

    @Test
    void numberOfThreadsDoesNotChangeAnything() {
        for (Points points : Points.values()) {
            MonteCarloSettings settings = SETTINGS.withPoints(points);
            Adaptive rule = Adaptive.toDigits(2);
            MonteCarloResult alone = MonteCarlo.adaptive(SUM, rule, settings);
            MonteCarloResult shared = MonteCarlo.adaptive(SUM, rule, settings.withThreads(3));
            assertThat(shared.trials()).isEqualTo(alone.trials());
            assertThat(shared.estimate()).isEqualTo(alone.estimate());
            assertThat(shared.standardUncertainty()).isEqualTo(alone.standardUncertainty());
            assertThat(shared.interval(IntervalKind.SHORTEST)).isEqualTo(alone.interval(IntervalKind.SHORTEST));
            assertThat(shared.interval(IntervalKind.SYMMETRIC)).isEqualTo(alone.interval(IntervalKind.SYMMETRIC));
            MonteCarloResult fixedAlone = MonteCarlo.fixed(SUM, 100_000, settings);
            MonteCarloResult fixedShared = MonteCarlo.fixed(SUM, 100_000, settings.withThreads(2));
            assertThat(fixedShared.estimate()).isEqualTo(fixedAlone.estimate());
            assertThat(fixedShared.quantile(0.3)).isEqualTo(fixedAlone.quantile(0.3));
        }
    }

    @Test
    void anotherSeedGivesAnotherResult() {
        assertThat(MonteCarlo.fixed(SUM, 10_000, MonteCarloSettings.of(1)).estimate())
                .isNotEqualTo(
                        MonteCarlo.fixed(SUM, 10_000, MonteCarloSettings.of(2)).estimate());
    }

    @Test
    void sobolPointsAreFarMoreExact() {
        MonteCarloResult even = MonteCarlo.fixed(SUM, 1 << 14, SETTINGS.withPoints(Points.SOBOL));
        assertThat(even.trials()).isEqualTo(1 << 14);
        // random points: standard errors 0.039 and 0.028
        assertThat(even.estimate()).isCloseTo(9, within(0.002));
        assertThat(even.standardUncertainty()).isCloseTo(5, within(0.004));
    }

    @Test
    void blocksGrowWithTheCoverageProbability() {
        // 100/(1 - p): 10^4 up to 0.99, 10^5 at 0.999; trials are rounded up to whole blocks
        assertThat(MonteCarlo.fixed(SUM, 2, SETTINGS).trials()).isEqualTo(10_000);
        assertThat(MonteCarlo.fixed(SUM, 10_001, SETTINGS).trials()).isEqualTo(20_000);
        assertThat(MonteCarlo.fixed(SUM, 20_000, SETTINGS).trials()).isEqualTo(20_000);
        assertThat(MonteCarlo.fixed(SUM, 2, SETTINGS.withCoverageProbability(0.9985))
                        .trials())
                .isEqualTo(66_667);
        assertThat(MonteCarlo.fixed(
                                SUM, 2, SETTINGS.withCoverageProbability(0.9985).withPoints(Points.SOBOL))
                        .trials())
                .isEqualTo(131_072);
        // exactly a power of two stays
        assertThat(MonteCarlo.fixed(
                                SUM,
                                2,
                                SETTINGS.withCoverageProbability(1 - 100.0 / 16384)
                                        .withPoints(Points.SOBOL))
                        .trials())
                .isEqualTo(16_384);
    }

    @Test
    void adaptiveRunStopsWhenTwoDigitsAreStable() {
        MonteCarloResult result = MonteCarlo.adaptive(SUM, Adaptive.toDigits(2), SETTINGS.withThreads(2));
        assertThat(result.stable()).isTrue();
        // u = 5.0: tolerance 0.05; the ends need 2 * 9.5/sqrt(n) < 0.05, about 1.4e5 trials
        assertThat(result.trials()).isBetween(100_000, 400_000);
        MonteCarloResult finer = MonteCarlo.adaptive(
                SUM, new Adaptive(2, 0.5, IntervalKind.SYMMETRIC, 10_000_000), SETTINGS.withThreads(2));
        assertThat((double) finer.trials() / result.trials()).isBetween(2.0, 8.0);
    }

    @Test
    void adaptiveRunTellsWhenItGaveUp() {
        MonteCarloResult result =
                MonteCarlo.adaptive(SUM, new Adaptive(4, 1, IntervalKind.SHORTEST, 150_000), SETTINGS.withThreads(2));
        assertThat(result.stable()).isFalse();
        assertThat(result.trials()).isEqualTo(150_000);
        // ten blocks are the least
        assertThat(MonteCarlo.adaptive(SUM, new Adaptive(4, 1, IntervalKind.SHORTEST, 1), SETTINGS)
                        .trials())
                .isEqualTo(100_000);
    }

    @Test
    void aCertainModelIsStableAtOnce() {
        UncertaintyModel certain = UncertaintyModel.of(List.of(Input.of("a", Normal.of(3, 0))), x -> 2 * x[0]);
        MonteCarloResult result = MonteCarlo.adaptive(certain, Adaptive.toDigits(2), SETTINGS);
        assertThat(result.stable()).isTrue();
        assertThat(result.trials()).isEqualTo(100_000);
        assertThat(result.estimate()).isEqualTo(6);
        assertThat(result.standardUncertainty()).isZero();
        assertThat(result.interval(IntervalKind.SHORTEST)).isEqualTo(new Interval(6, 6));
    }

    /** Share of adaptive runs whose results are all within the tolerance of the truth. */
    private static double shareWithinTolerance(int runs, long seed) {
        double end = 5 * Distributions.normalQuantile(0.975);
        UncertaintyModel normal = UncertaintyModel.of(
                List.of(Input.of("a", Normal.of(0, 3)), Input.of("b", Normal.of(0, 4))), x -> x[0] + x[1]);
        int good = 0;
        for (int run = 0; run < runs; run++) {
            MonteCarloResult result = MonteCarlo.adaptive(
                    normal,
                    Adaptive.toDigits(2),
                    MonteCarloSettings.of(seed + run).withThreads(2));
            Interval interval = result.interval(IntervalKind.SYMMETRIC);
            boolean near = Math.abs(result.estimate()) < 0.05
                    && Math.abs(result.standardUncertainty() - 5) < 0.05
                    && Math.abs(interval.low() + end) < 0.05
                    && Math.abs(interval.high() - end) < 0.05;
            good += near ? 1 : 0;
        }
        return (double) good / runs;
    }

    @Test
    void adaptiveResultsAreWithinTheToleranceTheyClaim() {
        long seed = Long.getLong("slowproof.seed", 5000L);
        assertThat(shareWithinTolerance(60, seed)).as("seed %s", seed).isGreaterThan(0.75);
    }

    @Test
    @Tag("long")
    void adaptiveResultsAreWithinTheToleranceInAlmostAllRuns() {
        long seed = Long.getLong("slowproof.seed", 5000L);
        int runs = Integer.getInteger("slowproof.trials", 2000);
        // two ends at two standard deviations each: about 0.9
        assertThat(shareWithinTolerance(runs, seed)).as("seed %s", seed).isGreaterThan(0.85);
    }

    @Test
    void valuesThatAreNotFiniteAreReported() {
        UncertaintyModel logarithm = UncertaintyModel.of(List.of(Input.of("a", Normal.of(1, 1))), x -> Math.log(x[0]));
        for (Points points : Points.values()) {
            assertThatExceptionOfType(ArithmeticException.class)
                    .isThrownBy(() -> MonteCarlo.fixed(logarithm, 10, SETTINGS.withPoints(points)))
                    .withMessageContaining("NaN");
        }
    }

    @Test
    void jointlyNormalInputsHaveTheirCorrelation() {
        UncertaintyModel model = UncertaintyModel.of(
                        List.of(
                                Input.of("a", Normal.of(1, 2)),
                                Input.of("alone", Rectangular.about(0, 1)),
                                Input.of("b", Normal.of(-1, 3)),
                                Input.of("c", Normal.of(0, 1))),
                        x -> x[0])
                .withCorrelation("a", "b", -0.8)
                .withCorrelation("b", "c", 0.5);
        double[][] r = correlations(model.source(BlockStreams.of(4).next()), 4, 200_000);
        double[][] even = correlations(transformed(model.transform()), 4, 200_000);
        for (double[][] found : List.of(r, even)) {
            assertThat(found[0][2]).isCloseTo(-0.8, within(0.01));
            assertThat(found[2][3]).isCloseTo(0.5, within(0.01));
            assertThat(found[0][3]).isCloseTo(0, within(0.01));
            assertThat(found[0][1]).isCloseTo(0, within(0.01));
            assertThat(found[1][2]).isCloseTo(0, within(0.01));
        }
    }

    @Test
    void fullyCorrelatedInputsMoveTogether() {
        UncertaintyModel model = UncertaintyModel.of(
                        List.of(Input.of("a", Normal.of(1, 2)), Input.of("b", Normal.of(5, 4))), x -> x[1] - 2 * x[0])
                .withCorrelation("a", "b", 1);
        assertThat(model.transform().uniforms()).isEqualTo(1);
        MonteCarloResult result = MonteCarlo.fixed(model, 10_000, SETTINGS);
        assertThat(result.estimate()).isCloseTo(3, within(1e-9));
        assertThat(result.standardUncertainty()).isLessThan(1e-9);
    }

    @Test
    void jointlyStudentInputsShareTheirScatter() {
        UncertaintyModel model = UncertaintyModel.of(
                        List.of(Input.of("a", new ScaledStudent(1, 2, 5)), Input.of("b", new ScaledStudent(0, 1, 5))),
                        x -> x[0] - x[1])
                .withCorrelation("a", "b", 0.5);
        // scale sqrt(4 + 1 - 2) and Student's t with 5 degrees of freedom, jointly
        double half = Math.sqrt(3) * Distributions.studentQuantile(0.975, 5);
        for (Points points : Points.values()) {
            Interval interval = MonteCarlo.fixed(
                            model, 1 << 18, SETTINGS.withPoints(points).withThreads(2))
                    .interval(IntervalKind.SYMMETRIC);
            assertThat(interval.low()).isCloseTo(1 - half, within(0.06));
            assertThat(interval.high()).isCloseTo(1 + half, within(0.06));
        }
        assertThat(model.transform().uniforms()).isEqualTo(3);
        assertThat(model.transform().quantities()).isEqualTo(2);
        assertThat(model.groups()).hasSize(1);
        assertThat(model.groups().get(0).uniforms()).containsExactly(0, 1, 2);
    }

    @Test
    void otherCorrelatedInputsCannotBeDrawn() {
        UncertaintyModel mixed = UncertaintyModel.of(
                        List.of(Input.of("a", Normal.of(1, 2)), Input.of("b", Rectangular.about(0, 1))),
                        x -> x[0] + x[1])
                .withCorrelation("a", "b", 0.5);
        assertThatIllegalArgumentException()
                .isThrownBy(() -> MonteCarlo.fixed(mixed, 10, SETTINGS))
                .withMessageContaining("correlated inputs");
        UncertaintyModel students = UncertaintyModel.of(
                        List.of(Input.of("a", new ScaledStudent(1, 2, 4)), Input.of("b", new ScaledStudent(1, 2, 5))),
                        x -> x[0] + x[1])
                .withCorrelation("a", "b", 0.5);
        assertThatIllegalArgumentException().isThrownBy(() -> MonteCarlo.fixed(students, 10, SETTINGS));
        UncertaintyModel uniforms = UncertaintyModel.of(
                        List.of(Input.of("a", Rectangular.about(1, 2)), Input.of("b", Rectangular.about(0, 1))),
                        x -> x[0] + x[1])
                .withCorrelation("a", "b", 0.5);
        assertThatIllegalArgumentException().isThrownBy(() -> MonteCarlo.fixed(uniforms, 10, SETTINGS));
    }

    @Test
    void budgetIsValidatedWhereTheFirstOrderSuffices() {
        UncertaintyModel linear = UncertaintyModel.of(
                List.of(Input.of("a", Normal.of(10, 3)), Input.of("b", Normal.of(-1, 4))), x -> x[0] + x[1]);
        MonteCarloResult run =
                MonteCarlo.adaptive(linear, Adaptive.forValidation(2, IntervalKind.SYMMETRIC), SETTINGS.withThreads(2));
        assertThat(run.stable()).isTrue();
        Validation good = Validation.of(Budget.of(linear), 2, run, IntervalKind.SYMMETRIC);
        assertThat(good.validated()).isTrue();
        assertThat(good.stable()).isTrue();
        assertThat(good.tolerance()).isEqualTo(0.05);
        // JCGM 101:2008, 9.3: first order not validated, second order validated, at one digit (from memory)
        UncertaintyModel mass = Jcgm101Cases.massModel();
        MonteCarloResult massRun = MonteCarlo.fixed(
                mass, 1 << 20, SETTINGS.withPoints(Points.SOBOL).withThreads(2));
        assertThat(Validation.of(Budget.of(mass), 1, massRun, IntervalKind.SHORTEST)
                        .validated())
                .isFalse();
        SecondOrder second = SecondOrder.of(mass);
        assertThat(Validation.of(second.interval(0.95), second.standardUncertainty(), 1, massRun, IntervalKind.SHORTEST)
                        .validated())
                .isTrue();
    }

    @Test
    void bothEndsHaveToAgree() {
        assertThat(new Validation(0.1, 0.1, 0.1, true).validated()).isTrue();
        assertThat(new Validation(0.11, 0, 0.1, true).validated()).isFalse();
        assertThat(new Validation(0, 0.11, 0.1, true).validated()).isFalse();
    }

    @Test
    void toleranceIsHalfAUnitOfTheLastDigit() {
        // JCGM 101:2008, 7.9.2 with its examples (from memory): 0.0035 and two digits give 0.000 05
        assertThat(NumericalTolerance.of(0.0035, 2)).isEqualTo(0.00005);
        assertThat(NumericalTolerance.of(2, 2)).isEqualTo(0.05);
        assertThat(NumericalTolerance.of(2, 1)).isEqualTo(0.5);
        assertThat(NumericalTolerance.of(123456, 2)).isEqualTo(5000);
        // rounds up to the next power of ten
        assertThat(NumericalTolerance.of(0.0996, 2)).isEqualTo(0.005);
        assertThat(NumericalTolerance.of(0.0994, 2)).isEqualTo(0.0005);
        assertThatIllegalArgumentException().isThrownBy(() -> NumericalTolerance.of(0, 2));
        assertThatIllegalArgumentException().isThrownBy(() -> NumericalTolerance.of(1, 0));
    }

    @Test
    void settingsAreChecked() {
        assertThatIllegalArgumentException().isThrownBy(() -> SETTINGS.withThreads(0));
        assertThatIllegalArgumentException().isThrownBy(() -> SETTINGS.withCoverageProbability(95));
        assertThatIllegalArgumentException().isThrownBy(() -> Adaptive.toDigits(0));
        assertThatIllegalArgumentException().isThrownBy(() -> new Adaptive(1, 0, IntervalKind.SHORTEST, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> new Adaptive(1, 1.1, IntervalKind.SHORTEST, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> new Adaptive(1, 1, IntervalKind.SHORTEST, 0));
        assertThat(new Adaptive(1, 1, IntervalKind.SHORTEST, 1).digits()).isEqualTo(1);
        assertThat(Adaptive.forValidation(1, IntervalKind.SHORTEST).toleranceShare())
                .isEqualTo(0.2);
        assertThatIllegalArgumentException().isThrownBy(() -> MonteCarlo.fixed(SUM, 1, SETTINGS));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> MonteCarlo.fixed(SUM, 3_000_000_000L, SETTINGS))
                .withMessageContaining("3000000000");
    }

    @Test
    void sourcesMakeNoArrays() {
        // the same array comes back filled, whatever the mixture of inputs
        AtomicLong calls = new AtomicLong();
        UncertaintyModel model =
                UncertaintyModel.of(List.of(Input.of("a", Normal.of(1, 2)), Input.of("b", new UShaped(0, 1))), x -> {
                    calls.incrementAndGet();
                    return x[0] + x[1];
                });
        double[] x = new double[2];
        VectorSource source = model.source(BlockStreams.of(1).next());
        source.next(x);
        double first = x[0];
        source.next(x);
        assertThat(x[0]).isNotEqualTo(first);
        assertThat(x[1]).isBetween(0.0, 1.0);
        assertThat(calls.get()).isZero();
        MonteCarlo.fixed(model, 10_000, SETTINGS);
        assertThat(calls.get()).isEqualTo(10_000);
    }

    private static VectorSource transformed(UniformTransform transform) {
        var random = BlockStreams.of(8).next();
        double[] u = new double[transform.uniforms()];
        return x -> {
            for (int i = 0; i < u.length; i++) {
                u[i] = random.nextDouble();
            }
            transform.apply(u, x);
        };
    }

    private static double[][] correlations(VectorSource source, int quantities, int n) {
        double[][] values = new double[quantities][n];
        double[] x = new double[quantities];
        for (int t = 0; t < n; t++) {
            source.next(x);
            for (int i = 0; i < quantities; i++) {
                values[i][t] = x[i];
            }
        }
        double[][] r = new double[quantities][quantities];
        for (int i = 0; i < quantities; i++) {
            for (int j = 0; j < quantities; j++) {
                Moments a = Moments.of(values[i]);
                Moments b = Moments.of(values[j]);
                double sum = 0;
                for (int t = 0; t < n; t++) {
                    sum += (values[i][t] - a.mean()) * (values[j][t] - b.mean());
                }
                r[i][j] = sum / Math.sqrt(a.squares() * b.squares());
            }
        }
        return r;
    }
}
