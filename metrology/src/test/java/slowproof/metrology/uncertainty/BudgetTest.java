package slowproof.metrology.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Interval;
import slowproof.metrology.sampling.ModelFunction;
import slowproof.metrology.statistics.Statistics;

class BudgetTest {

    private static final double INFINITE = Double.POSITIVE_INFINITY;

    private static UncertaintyModel model(ModelFunction function, Input... inputs) {
        return UncertaintyModel.of(List.of(inputs), function);
    }

    private static Input input(String name, double estimate, double u, double nu) {
        return new Input(name, Normal.of(estimate, u), nu);
    }

    private static double uncertainty(UncertaintyModel model) {
        return Budget.of(model).combined().standardUncertainty();
    }

    @Test
    void sensitivitiesAreThePartialDerivatives() {
        Budget budget = Budget.of(model(
                x -> x[0] * Math.exp(x[1]) / x[2],
                input("a", 3, 0.01, INFINITE),
                input("b", 0.5, 0.02, INFINITE),
                input("c", 2, 0.1, INFINITE)));
        double e = Math.exp(0.5);
        assertThat(budget.estimate()).isEqualTo(1.5 * e);
        assertThat(budget.lines().get(0).sensitivity()).isCloseTo(e / 2, within(1e-10));
        assertThat(budget.lines().get(1).sensitivity()).isCloseTo(1.5 * e, within(1e-10));
        assertThat(budget.lines().get(2).sensitivity()).isCloseTo(-0.75 * e, within(1e-10));
        assertThat(budget.lines().get(2).contribution()).isCloseTo(0.075 * e, within(1e-11));
        assertThat(budget.combined().standardUncertainty())
                .isCloseTo(e * Math.sqrt(0.005 * 0.005 + 0.03 * 0.03 + 0.075 * 0.075), within(1e-11));
    }

    @Test
    void tinyUncertaintiesOfLargeQuantitiesAreDifferentiatedToo() {
        Budget budget = Budget.of(model(x -> x[0] - x[1], input("a", 5e7, 1e-4, 3), input("b", 5e7, 0, 3)));
        assertThat(budget.lines().get(0).sensitivity()).isCloseTo(1, within(1e-8));
        assertThat(budget.combined().standardUncertainty()).isCloseTo(1e-4, within(1e-11));
        Budget atZero = Budget.of(model(x -> x[0] + 4 * x[1], input("a", 1, 0.1, 3), input("b", 0, 0, 3)));
        assertThat(atZero.lines().get(1).sensitivity()).isCloseTo(4, within(1e-9));
        assertThat(atZero.lines().get(1).component()).isEqualTo(BudgetLine.NO_COMPONENT);
    }

    @Test
    void givenSensitivitiesAreTaken() {
        UncertaintyModel model = model(x -> x[0] + x[1], input("a", 1, 0.3, 5), input("b", 2, 0.4, 9))
                .withSensitivities(2, -1);
        Budget budget = Budget.of(model);
        assertThat(budget.estimate()).isEqualTo(3);
        assertThat(budget.lines().get(0).sensitivity()).isEqualTo(2);
        assertThat(budget.combined().standardUncertainty()).isCloseTo(Math.hypot(0.6, 0.4), within(1e-15));
        assertThat(model.givenSensitivities().orElseThrow()).containsExactly(2, -1);
        assertThat(model(x -> x[0], input("a", 1, 1, 1)).givenSensitivities()).isEmpty();
        assertThatIllegalArgumentException().isThrownBy(() -> model.withSensitivities(1));
        assertThatIllegalArgumentException().isThrownBy(() -> model.withSensitivities(1, Double.NaN));
        // a correlation keeps them
        assertThat(Budget.of(model.withCorrelation("a", "b", 1)).combined().standardUncertainty())
                .isCloseTo(0.2, within(1e-15));
    }

    @Test
    void givenSensitivitiesAreNotSharedWithTheCaller() {
        double[] given = {2, -1};
        UncertaintyModel model = model(x -> x[0] + x[1], input("a", 1, 0.3, 5), input("b", 2, 0.4, 9))
                .withSensitivities(given);
        given[0] = 100;
        model.givenSensitivities().orElseThrow()[1] = 100;
        assertThat(Budget.of(model).combined().standardUncertainty()).isCloseTo(Math.hypot(0.6, 0.4), within(1e-15));
    }

    @Test
    void fullyCorrelatedInputsAddOrCancel() {
        UncertaintyModel sum = model(x -> x[0] + x[1], input("a", 1, 0.3, 5), input("b", 2, 0.4, 9));
        assertThat(uncertainty(sum)).isCloseTo(0.5, within(1e-12));
        assertThat(uncertainty(sum.withCorrelation("a", "b", 1))).isCloseTo(0.7, within(1e-12));
        assertThat(uncertainty(sum.withCorrelation("b", "a", -1))).isCloseTo(0.1, within(1e-12));
        // variance 0.25 + 2 * 0.5 * 0.12 = 0.37
        assertThat(uncertainty(sum.withCorrelation("a", "b", 0.5))).isCloseTo(Math.sqrt(0.37), within(1e-12));
        UncertaintyModel difference = model(x -> x[0] - x[1], input("a", 1, 0.3, 5), input("b", 2, 0.3, 9));
        assertThat(uncertainty(difference.withCorrelation("a", "b", 1))).isCloseTo(0, within(1e-9));
        // the later of two statements counts
        assertThat(uncertainty(sum.withCorrelation("a", "b", 1).withCorrelation("a", "b", 0)))
                .isCloseTo(0.5, within(1e-12));
    }

    @Test
    void correlatedInputsAreOneComponentOfTheDegreesOfFreedom() {
        UncertaintyModel model = model(
                        x -> x[0] + x[1] + x[2], input("a", 1, 0.3, 8), input("c", 3, 0.5, 6), input("b", 2, 0.4, 4))
                .withCorrelation("a", "b", 0.5);
        Budget budget = Budget.of(model);
        assertThat(budget.combined().components()).extracting(Component::source).containsExactly("a + b", "c");
        assertThat(budget.lines()).extracting(BudgetLine::component).containsExactly(0, 1, 0);
        // the smaller degrees of freedom of the pair: (0.37 + 0.25)^2/(0.37^2/4 + 0.25^2/6)
        assertThat(budget.combined().effectiveDegreesOfFreedom())
                .isCloseTo(0.62 * 0.62 / (0.1369 / 4 + 0.0625 / 6), within(1e-9));
        assertThat(budget.combined().sharePercent(0)).isCloseTo(37.0 / 62 * 100, within(1e-9));
    }

    @Test
    void correlationThroughAThirdQuantityLinksToo() {
        UncertaintyModel chain = model(
                        x -> x[0] + x[1] + x[2], input("a", 1, 1, 5), input("b", 2, 1, 5), input("c", 3, 1, 5))
                .withCorrelation("a", "b", 0.5)
                .withCorrelation("b", "c", 0.5);
        assertThat(Budget.of(chain).combined().components()).hasSize(1);
        assertThat(Budget.of(chain).combined().effectiveDegreesOfFreedom()).isCloseTo(5, within(1e-12));
        assertThat(uncertainty(chain)).isCloseTo(Math.sqrt(5), within(1e-12));
    }

    @Test
    void anUnusedInputChangesNothingHoweverItIsCorrelated() {
        long seed = Long.getLong("slowproof.seed", 99L);
        SplittableRandom random = new SplittableRandom(seed);
        for (int trial = 0; trial < 200; trial++) {
            double u0 = random.nextDouble();
            double u1 = random.nextDouble();
            double nu = 1 + 20 * random.nextDouble();
            UncertaintyModel without = model(x -> x[0] * x[1], input("a", 3, u0, nu), input("b", 2, u1, 2 * nu));
            UncertaintyModel with = model(
                            x -> x[0] * x[1],
                            input("a", 3, u0, nu),
                            input("b", 2, u1, 2 * nu),
                            input("unused", 7, random.nextDouble(), 1))
                    .withCorrelation("a", "unused", 0.6)
                    .withCorrelation("b", "unused", -0.6);
            Combined expected = Budget.of(without).combined();
            Combined actual = Budget.of(with).combined();
            assertThat(actual.standardUncertainty()).as("seed %s", seed).isEqualTo(expected.standardUncertainty());
            assertThat(actual.effectiveDegreesOfFreedom()).isEqualTo(expected.effectiveDegreesOfFreedom());
            assertThat(actual.components()).hasSize(2);
        }
    }

    @Test
    void theUnitOfAnInputDoesNotMatter() {
        long seed = Long.getLong("slowproof.seed", 98L);
        SplittableRandom random = new SplittableRandom(seed);
        for (int trial = 0; trial < 200; trial++) {
            double x0 = 1 + random.nextDouble();
            double x1 = 1 + random.nextDouble();
            double u0 = 0.1 * random.nextDouble();
            double u1 = 0.1 * random.nextDouble();
            double r = 2 * random.nextDouble() - 1;
            double inMetres = uncertainty(model(x -> x[0] / x[1], input("a", x0, u0, 5), input("b", x1, u1, 5))
                    .withCorrelation("a", "b", r));
            double inMillimetres = uncertainty(
                    model(x -> x[0] / 1000 / x[1], input("a", 1000 * x0, 1000 * u0, 5), input("b", x1, u1, 5))
                            .withCorrelation("a", "b", r));
            assertThat(inMillimetres).as("seed %s", seed).isCloseTo(inMetres, within(1e-10 * inMetres + 1e-15));
        }
    }

    @Test
    void intervalUsesTheCoverageFactor() {
        Budget budget = Budget.of(model(x -> x[0], input("a", 10, 0.5, 4)));
        Interval interval = budget.interval(0.95);
        // t(0.975, 4) = 2.776445 (tables)
        assertThat(interval.low()).isCloseTo(10 - 0.5 * 2.776445, within(1e-6));
        assertThat(interval.high()).isCloseTo(10 + 0.5 * 2.776445, within(1e-6));
    }

    @Test
    void linesShowTheStatementBeforeTheDivisor() {
        Budget budget = Budget.of(model(
                x -> x[0] + 2 * x[1],
                Input.of("certificate", Normal.expanded(1, 0.08, 2)),
                Input.of("display", Rectangular.about(0, 0.5))));
        assertThat(budget.lines().get(0).statedUncertainty()).isCloseTo(0.08, within(1e-15));
        assertThat(budget.lines().get(1).statedUncertainty()).isCloseTo(0.5, within(1e-15));
        assertThat(budget.lines().get(1).contribution()).isCloseTo(1 / Math.sqrt(3), within(1e-9));
    }

    @Test
    void theFirstOrderLawIsRefusedWhereItSeesNothing() {
        UncertaintyModel square =
                model(x -> x[0] * x[0] + x[1] * x[1], input("a", 0, 0.005, 5), input("b", 0, 0.005, 5));
        assertThatExceptionOfType(ArithmeticException.class)
                .isThrownBy(() -> Budget.of(square))
                .withMessageContaining("first-order law does not apply");
        UncertaintyModel cosine = model(x -> 1 - Math.cos(x[0]), input("angle", 0, 0.01, 5));
        assertThatExceptionOfType(ArithmeticException.class).isThrownBy(() -> Budget.of(cosine));
        // beside a contribution that counts, a vanishing one is nothing unusual
        UncertaintyModel both = model(x -> 1 - Math.cos(x[0]) + x[1], input("angle", 0, 0.01, 5), input("b", 0, 1, 5));
        assertThat(uncertainty(both)).isCloseTo(1, within(1e-9));
    }

    @Test
    void nothingUncertainGivesZero() {
        Budget budget = Budget.of(model(x -> 3 * x[0], input("a", 4, 0, 5)));
        assertThat(budget.combined().standardUncertainty()).isZero();
        assertThat(budget.combined().components()).containsExactly(new Component("a", 0, INFINITE));
        Budget constant = Budget.of(model(x -> 7, input("a", 4, 1, 5)));
        assertThat(constant.combined().standardUncertainty()).isZero();
        assertThat(constant.interval(0.95)).isEqualTo(new Interval(7, 7));
    }

    @Test
    void contradictoryCorrelationsAreRefused() {
        UncertaintyModel model = model(
                        x -> x[0] + x[1] + x[2], input("a", 1, 1, 5), input("b", 2, 1, 5), input("c", 3, 1, 5))
                .withCorrelation("a", "b", 0.9)
                .withCorrelation("b", "c", 0.9);
        assertThatIllegalArgumentException().isThrownBy(() -> Budget.of(model)).withMessageContaining("contradict");
        assertThatIllegalArgumentException().isThrownBy(model::transform);
        assertThatIllegalArgumentException().isThrownBy(() -> MonteCarlo.fixed(model, 10, MonteCarloSettings.of(1)));
        assertThat(uncertainty(model.withCorrelation("a", "c", 0.9))).isCloseTo(Math.sqrt(8.4), within(1e-9));
    }

    @Test
    void badModelsAreRefused() {
        assertThatIllegalArgumentException().isThrownBy(() -> UncertaintyModel.of(List.of(), x -> 1));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> model(x -> 1, input("a", 1, 1, 1), input("a", 2, 1, 1)))
                .withMessageContaining("different names");
        assertThatIllegalArgumentException().isThrownBy(() -> input(" ", 1, 1, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> input("a", 1, 1, 0));
        UncertaintyModel model = model(x -> x[0] + x[1], input("a", 1, 1, 1), input("b", 2, 1, 1));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> model.withCorrelation("a", "z", 0.5))
                .withMessageContaining("z");
        assertThatIllegalArgumentException().isThrownBy(() -> model.withCorrelation("a", "a", 0.5));
        assertThatIllegalArgumentException().isThrownBy(() -> model.withCorrelation("a", "b", 1.01));
        assertThatIllegalArgumentException().isThrownBy(() -> model.withCorrelation("a", "b", -1.01));
        assertThatIllegalArgumentException().isThrownBy(() -> model.withCorrelation("a", "b", Double.NaN));
        assertThatExceptionOfType(ArithmeticException.class)
                .isThrownBy(() -> Budget.of(model(x -> Math.log(x[0]), input("a", -1, 1, 1))));
        assertThatExceptionOfType(ArithmeticException.class)
                .isThrownBy(() -> Budget.of(model(x -> Math.sqrt(x[0]), input("a", 0, 1, 1))));
    }

    @Test
    void inputsTakeTheDegreesOfFreedomOfTheirDistribution() {
        assertThat(Input.of("a", new ScaledStudent(1, 1, 3)).degreesOfFreedom()).isEqualTo(3);
        assertThat(Input.of("a", Normal.of(1, 1)).degreesOfFreedom()).isInfinite();
        List<Input> inputs = new ArrayList<>(List.of(input("a", 1, 1, 1)));
        UncertaintyModel model = UncertaintyModel.of(inputs, x -> x[0]);
        inputs.clear();
        assertThat(model.inputs()).hasSize(1);
    }

    @Test
    void readingsTakenTogetherAreCorrelated() {
        SimultaneousReadings readings = SimultaneousReadings.of(
                List.of("a", "b", "still"),
                List.of(new double[] {1, 2, 3, 4}, new double[] {2, 4, 6, 8.4}, new double[] {5, 5, 5, 5}));
        assertThat(readings.correlation(0, 0)).isCloseTo(1, within(1e-12));
        // sums of squares and products about the means by hand: 5, 22.52, 10.6
        assertThat(readings.correlation(0, 1)).isCloseTo(10.6 / Math.sqrt(5 * 22.52), within(1e-12));
        assertThat(readings.correlation(1, 2)).isZero();
        assertThat(readings.inputs().get(0).degreesOfFreedom()).isEqualTo(3);
        assertThat(readings.inputs().get(0).distribution().standardUncertainty())
                .isCloseTo(Math.sqrt(5.0 / 3 / 4), within(1e-12));
        // the difference of the means has the uncertainty of the mean difference
        Budget budget = Budget.of(readings.model(x -> x[1] - x[0]));
        double[] differences = {1, 2, 3, 4.4};
        double expected = Statistics.standardDeviation(differences) / 2;
        assertThat(budget.combined().standardUncertainty()).isCloseTo(expected, within(1e-12));
        assertThat(budget.combined().effectiveDegreesOfFreedom()).isCloseTo(3, within(1e-12));
        assertThat(budget.combined().components()).hasSize(1);
    }

    @Test
    void readingsThatDoNotBelongTogetherAreRefused() {
        assertThatIllegalArgumentException().isThrownBy(() -> SimultaneousReadings.of(List.of(), List.of()));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> SimultaneousReadings.of(List.of("a"), List.of(new double[2], new double[2])));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> SimultaneousReadings.of(
                        List.of("a", "b"), List.of(new double[] {1, 2}, new double[] {1, 2, 3})))
                .withMessageContaining("b");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> SimultaneousReadings.of(List.of("a"), List.of(new double[] {1})));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> SimultaneousReadings.of(List.of("a"), List.of(new double[] {1, Double.NaN})));
    }
}
