package slowproof.metrology.regression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Tests whether a curve is enough: linearity and lack of fit. */
class FitTestsTest {
    // y = x^2 at -1.5 .. 1.5: the line explains nothing, the parabola everything.
    @Test
    void parabolaIsNotLinear() {
        double[] x = {-2, -1, 0, 1, 2};
        double[] y = {4, 1, 0, 1, 4};
        VarianceSplit split = LinearityTest.of(x, y);
        assertThat(split.explained()).isCloseTo(14, within(1e-12));
        assertThat(split.residual()).isCloseTo(0, within(1e-20));
        assertThat(split.explainedDegreesOfFreedom()).isEqualTo(1);
        assertThat(split.residualDegreesOfFreedom()).isEqualTo(2);
        assertThat(split.pValue()).isLessThan(1e-10);
    }

    // By hand: residuals of the line 0.1, -0.3, 0.3, -0.1 hold no square part (0.1 + 0.3 - 0.3 - 0.1 = 0).
    @Test
    void lineWithoutCurvatureGainsNothing() {
        VarianceSplit split = LinearityTest.of(new double[] {0, 1, 2, 3}, new double[] {1, 2, 4, 5});
        assertThat(split.explained()).isCloseTo(0, within(1e-14));
        assertThat(split.residual()).isCloseTo(0.2, within(1e-14));
        assertThat(split.pValue()).isCloseTo(1, within(1e-6));
    }

    // Settings 0, 1, 2 with pairs; line y = 1 + x. Group means of residuals 0.5, -0.5, 1; pure error 2 * 0.5 each.
    @Test
    void residualsSplitIntoPureErrorAndLackOfFit() {
        double[] y = {1, 2, 1, 2, 3.5, 4.5};
        double[] fitted = {1, 1, 2, 2, 3, 3};
        int[] group = {7, 7, 3, 3, 9, 9};
        VarianceSplit split = LackOfFit.of(y, fitted, group, 2);
        assertThat(split.residual()).isCloseTo(1.5, within(1e-14));
        assertThat(split.explained()).isCloseTo(2 * (0.25 + 0.25 + 1), within(1e-14));
        assertThat(split.explainedDegreesOfFreedom()).isEqualTo(1);
        assertThat(split.residualDegreesOfFreedom()).isEqualTo(3);
        assertThat(split.f()).isCloseTo(6, within(1e-13));
    }

    @Test
    void pValuesOfTrueLinesAreUniform() {
        long seed = 51;
        Random random = new Random(seed);
        int trials = 4000;
        int linear = 0;
        int lack = 0;
        for (int trial = 0; trial < trials; trial++) {
            double[] x = new double[12];
            double[] y = new double[12];
            int[] group = new int[12];
            for (int i = 0; i < 12; i++) {
                group[i] = i / 3;
                x[i] = group[i];
                y[i] = 2 - x[i] + random.nextGaussian();
            }
            StraightLine line = StraightLine.ordinary(x, y);
            double[] fitted = new double[12];
            for (int i = 0; i < 12; i++) {
                fitted[i] = line.at(x[i]);
            }
            linear += LinearityTest.of(x, y).pValue() < 0.1 ? 1 : 0;
            lack += LackOfFit.of(y, fitted, group, 2).pValue() < 0.1 ? 1 : 0;
        }
        // four standard errors of a share of 0.1
        assertThat((double) linear / trials).as("seed %d", seed).isCloseTo(0.1, within(0.019));
        assertThat((double) lack / trials).as("seed %d", seed).isCloseTo(0.1, within(0.019));
    }

    @Test
    void badArgumentsAreNamed() {
        double[] three = {1, 2, 3};
        int[] groups = {0, 0, 1};
        assertThatThrownBy(() -> LinearityTest.of(three, three)).hasMessageContaining("four points");
        assertThatThrownBy(() -> LackOfFit.of(three, new double[] {1}, groups, 1))
                .hasMessageContaining("fitted");
        assertThatThrownBy(() -> LackOfFit.of(three, three, new int[] {1}, 1)).hasMessageContaining("group numbers");
        assertThatThrownBy(() -> LackOfFit.of(three, three, groups, 0)).hasMessageContaining("parameter");
        assertThatThrownBy(() -> LackOfFit.of(three, three, groups, 2)).hasMessageContaining("settings");
        assertThatThrownBy(() -> LackOfFit.of(three, three, new int[] {0, 1, 2}, 1))
                .hasMessageContaining("repeats");
        double[] broken = {1, 2, Double.NaN};
        assertThatThrownBy(() -> LackOfFit.of(broken, three, groups, 1)).hasMessageContaining("readings");
        assertThatThrownBy(() -> LackOfFit.of(three, broken, groups, 1)).hasMessageContaining("fitted values");
    }
}
