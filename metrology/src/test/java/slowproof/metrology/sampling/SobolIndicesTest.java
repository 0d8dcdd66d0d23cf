package slowproof.metrology.sampling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import slowproof.metrology.uncertainty.Input;
import slowproof.metrology.uncertainty.Normal;
import slowproof.metrology.uncertainty.Rectangular;
import slowproof.metrology.uncertainty.UncertaintyModel;

class SobolIndicesTest {

    /** x0 and x1 act together, x2 alone, x3 not at all: variances 1, 4 and 9/3 = 3 of x0 x1, x1 and x2. */
    private static final UncertaintyModel MODEL = UncertaintyModel.of(
            List.of(
                    Input.of("x0", Normal.of(0, 1)),
                    Input.of("x1", Normal.of(0, 1)),
                    Input.of("x2", Rectangular.about(0, 3)),
                    Input.of("x3", Normal.of(5, 2))),
            x -> x[0] * x[1] + 2 * x[1] + x[2]);

    private static SobolIndices estimate(SensitivityPlan plan) {
        return SobolIndices.estimate(MODEL.function(), MODEL.transform(), MODEL.groups(), plan);
    }

    @Test
    void interactionIsInTheTotalAndNotInTheFirstOrder() {
        for (Points points : Points.values()) {
            SobolIndices indices = estimate(new SensitivityPlan(1 << 12, 16, points, 0.95, 1, 2));
            double tolerance = points == Points.SOBOL ? 0.003 : 0.02;
            assertThat(indices.variance()).isCloseTo(8, within(8 * tolerance));
            double[] first = {0, 4.0 / 8, 3.0 / 8, 0};
            double[] total = {1.0 / 8, 5.0 / 8, 3.0 / 8, 0};
            for (int i = 0; i < 4; i++) {
                SensitivityIndex index = indices.indices().get(i);
                assertThat(index.group()).isEqualTo("x" + i);
                assertThat(index.first()).isCloseTo(first[i], within(tolerance));
                assertThat(index.total()).isCloseTo(total[i], within(tolerance));
                assertThat(index.firstInterval().width()).isLessThan(3 * tolerance);
                assertThat(index.totalInterval().width()).isLessThan(3 * tolerance);
            }
        }
    }

    @Test
    void anInputWithoutInfluenceHasIndicesOfExactlyZero() {
        SensitivityIndex none = estimate(SensitivityPlan.of(3)).indices().get(3);
        assertThat(none.first()).isZero();
        assertThat(none.total()).isZero();
    }

    @Test
    void numberOfThreadsDoesNotChangeAnything() {
        SobolIndices alone = estimate(new SensitivityPlan(256, 9, Points.SOBOL, 0.9, 77, 1));
        assertThat(estimate(new SensitivityPlan(256, 9, Points.SOBOL, 0.9, 77, 4)))
                .isEqualTo(alone);
        assertThat(estimate(new SensitivityPlan(256, 9, Points.SOBOL, 0.9, 78, 4)))
                .isNotEqualTo(alone);
        assertThat(alone.evaluations()).isEqualTo(256L * 9 * 6);
    }

    @Test
    void correlatedInputsShareOneIndex() {
        UncertaintyModel model = UncertaintyModel.of(
                        List.of(
                                Input.of("a", Normal.of(0, 1)),
                                Input.of("alone", Normal.of(0, 2)),
                                Input.of("b", Normal.of(0, 1))),
                        x -> x[0] + x[1] + x[2])
                .withCorrelation("a", "b", 0.5);
        assertThat(model.groups()).extracting(InputGroup::name).containsExactly("a + b", "alone");
        SobolIndices indices =
                SobolIndices.estimate(model.function(), model.transform(), model.groups(), SensitivityPlan.of(1));
        // variances 1 + 1 + 2 * 0.5 = 3 and 4
        assertThat(indices.indices().get(0).first()).isCloseTo(3.0 / 7, within(0.005));
        assertThat(indices.indices().get(1).total()).isCloseTo(4.0 / 7, within(0.005));
    }

    @Test
    void aConstantModelHasNoShares() {
        SobolIndices indices = SobolIndices.estimate(x -> 4, MODEL.transform(), MODEL.groups(), SensitivityPlan.of(1));
        assertThat(indices.variance()).isZero();
        for (SensitivityIndex index : indices.indices()) {
            assertThat(index.first()).isZero();
            assertThat(index.totalInterval().width()).isZero();
        }
    }

    @Test
    void badInputIsRefused() {
        assertThatExceptionOfType(ArithmeticException.class)
                .isThrownBy(() -> SobolIndices.estimate(
                        x -> Math.sqrt(x[0]), MODEL.transform(), MODEL.groups(), SensitivityPlan.of(1)));
        for (int beyond : new int[] {-1, 4}) {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> SobolIndices.estimate(
                            MODEL.function(),
                            MODEL.transform(),
                            List.of(new InputGroup("beyond", List.of(beyond))),
                            SensitivityPlan.of(1)))
                    .withMessageContaining("beyond");
        }
        assertThatIllegalArgumentException().isThrownBy(() -> new InputGroup("none", List.of()));
        assertThatIllegalArgumentException().isThrownBy(() -> new InputGroup("twice", List.of(1, 1)));
        assertThatIllegalArgumentException().isThrownBy(() -> new SensitivityPlan(1, 2, Points.SOBOL, 0.95, 1, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> new SensitivityPlan(2, 1, Points.SOBOL, 0.95, 1, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> new SensitivityPlan(2, 2, Points.SOBOL, 0.95, 1, 0));
        assertThatIllegalArgumentException().isThrownBy(() -> new SensitivityPlan(2, 2, Points.SOBOL, 95, 1, 1));
        assertThat(new SensitivityPlan(2, 2, Points.SOBOL, 0.95, 1, 1).blocks()).isEqualTo(2);
    }

    /** Share of intervals that hold the true index, over independent runs. */
    private static double[] coverage(int runs, long seed, Points points) {
        int first = 0;
        int total = 0;
        for (int run = 0; run < runs; run++) {
            SensitivityIndex index = estimate(new SensitivityPlan(256, 16, points, 0.95, seed + run, 2))
                    .indices()
                    .get(1);
            first += index.firstInterval().contains(4.0 / 8) ? 1 : 0;
            total += index.totalInterval().contains(5.0 / 8) ? 1 : 0;
        }
        return new double[] {(double) first / runs, (double) total / runs};
    }

    @Test
    void intervalsHoldTheTrueIndex() {
        long seed = Long.getLong("slowproof.seed", 1000);
        for (Points points : Points.values()) {
            // 120 runs at 0.95: below 0.87 has a probability of about 3e-4
            assertThat(Arrays.stream(coverage(120, seed, points)))
                    .as("seed %s, %s", seed, points)
                    .allMatch(c -> c > 0.87);
        }
    }

    @Test
    @Tag("long")
    void intervalsHoldTheTrueIndexAsOftenAsTheySay() {
        long seed = Long.getLong("slowproof.seed", 1000);
        int runs = Integer.getInteger("slowproof.trials", 3000);
        for (Points points : Points.values()) {
            assertThat(Arrays.stream(coverage(runs, seed, points)))
                    .as("seed %s, %s", seed, points)
                    .allMatch(c -> c > 0.925 && c < 0.975);
        }
    }
}
