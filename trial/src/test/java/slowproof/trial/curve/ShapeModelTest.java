package slowproof.trial.curve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import slowproof.trial.simulator.Population;
import slowproof.trial.simulator.RandomStreams;

class ShapeModelTest {
    @Test
    void gradientsAreTheSlopesOfTheValue() {
        SplittableRandom random = new SplittableRandom(1);
        for (int sign = -1; sign <= 1; sign += 2) {
            for (boolean startLoss : new boolean[] {false, true}) {
                ShapeModel model = new ShapeModel(data(), sign, 2, startLoss);
                double[] z = point(model, random);
                double[] gradient = new double[model.dimension];
                model.gradient(z, gradient);
                compare(model::value, z, gradient);
                double[] q = model.toQ(z);
                double[] gradientQ = new double[model.dimension];
                assertThat(model.gradientQ(q, gradientQ)).isCloseTo(model.value(z), within(1e-6));
                compare(at -> model.gradientQ(at, new double[model.dimension]), q, gradientQ);
            }
        }
    }

    @Test
    void jacobianIsTheSlopeOfThePredictions() {
        ShapeModel model = new ShapeModel(data(), -1, 2, true);
        double[] z = point(model, new SplittableRandom(2));
        double[][] jacobian = new double[model.data.rows][model.dimension];
        model.value(z);
        model.jacobian(jacobian);
        for (int i = 0; i < z.length; i++) {
            double[] moved = z.clone();
            moved[i] += 1e-6;
            model.value(moved);
            double[] up = model.residualsCopy();
            moved[i] -= 2e-6;
            model.value(moved);
            double[] down = model.residualsCopy();
            for (int j = 0; j < jacobian.length; j++) {
                assertThat((up[j] - down[j]) / 2e-6)
                        .as("row %d, parameter %d", j, i)
                        .isCloseTo(jacobian[j][i], within(1e-5 * (1 + Math.abs(jacobian[j][i]))));
            }
        }
    }

    @Test
    void curveFallsTowardsItsBase() {
        ShapeModel model = new ShapeModel(data(), 1, 4, false);
        model.value(point(model, new SplittableRandom(3)));
        for (int k = 1; k < model.data.nodes; k++) {
            assertThat(model.eps[k]).isLessThanOrEqualTo(model.eps[k - 1]);
            assertThat(model.eps[k]).isGreaterThanOrEqualTo(model.base);
        }
    }

    private static void compare(ToDoubleFunction<double[]> value, double[] at, double[] gradient) {
        for (int i = 0; i < at.length; i++) {
            double h = 1e-4;
            double[] moved = at.clone();
            double[] values = new double[4];
            double[] steps = {2 * h, h, -h, -2 * h};
            for (int s = 0; s < 4; s++) {
                moved[i] = at[i] + steps[s];
                values[s] = value.applyAsDouble(moved);
            }
            // four-point difference: error of order h^4
            double slope = (-values[0] + 8 * values[1] - 8 * values[2] + values[3]) / (12 * h);
            assertThat(slope).as("parameter %d", i).isCloseTo(gradient[i], within(1e-6 * (10 + Math.abs(gradient[i]))));
        }
    }

    private static double[] point(ShapeModel model, SplittableRandom random) {
        double[] z = new double[model.dimension];
        for (int i = 0; i < z.length; i++) {
            z[i] = random.nextDouble() - 0.5;
        }
        z[0] *= 0.02;
        return z;
    }

    private static FitData data() {
        Population.Sample sample = Population.draw(RandomStreams.of(5).trial(1));
        List<ConditionRow> rows = ConditionRow.of(SimulatedPasses.of(sample.plan(), sample.streams()));
        double[] speeds = rows.stream().mapToDouble(ConditionRow::speedMmPerS).toArray();
        double[] variances = new double[speeds.length];
        Arrays.fill(variances, 0.5);
        return new FitData(rows, speeds, variances);
    }
}
