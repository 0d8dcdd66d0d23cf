package slowproof.trial.curve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;
import slowproof.trial.scatter.ComponentFit;
import slowproof.trial.scatter.PassError;
import slowproof.trial.scatter.VarianceComponents;

/**
 * Holds fit, posterior and variance components against values computed with SciPy's general-purpose tools
 * ({@code src/test/reference/crosscheck.py} wrote them): no gradient, no coordinates, no code in common.
 */
class CrossCheckTest {
    private static final Map<String, double[]> VALUES = read();

    @Test
    void distancesAreThoseOfNumericalIntegration() {
        FitData data = data();
        assertThat(data.nodeMmPerS).containsExactly(of("nodes_mm_s"), within(1e-9));
        double u = of("u_mm")[0];
        int last = data.rows - 1;
        for (int k = 0; k < data.nodes; k++) {
            assertThat(data.byRow[k] * u).isCloseTo(of("distances_first_row_mm")[k], within(1e-8));
            assertThat(data.byRow[last * data.nodes + k] * u).isCloseTo(of("distances_last_row_mm")[k], within(1e-8));
        }
    }

    @Test
    void modeIsThatOfAGeneralMinimiser() {
        ShapeMode mode = ShapeFit.mode(model());
        // the minimiser without gradients stops a little above the minimum
        assertThat(mode.value).isLessThanOrEqualTo(of("mode_value")[0] + 1e-6);
        assertThat(mode.value).isCloseTo(of("mode_value")[0], within(1e-3));
        mode.model.value(mode.z);
        double[] sd = of("posterior_sd");
        for (int k = 0; k < sd.length; k++) {
            assertThat(mode.model.eps[k]).as("node %d", k).isCloseTo(of("mode_curve")[k], within(0.05 * sd[k]));
        }
    }

    @Test
    void posteriorIsThatOfAChainWithoutGradients() {
        ShapeSampler sampler = new ShapeSampler(
                ShapeFit.mode(model()), RandomSource.XO_SHI_RO_256_PP.create(Long.getLong("slowproof.seed", 9)));
        int count = 20_000;
        int nodes = of("nodes_mm_s").length;
        double[] sum = new double[nodes];
        double[] squares = new double[nodes];
        sampler.sample(count, model -> {
            for (int k = 0; k < nodes; k++) {
                sum[k] += model.eps[k];
                squares[k] += model.eps[k] * model.eps[k];
            }
        });
        assertThat(sampler.acceptance()).isBetween(0.5, 0.98);
        for (int k = 0; k < nodes; k++) {
            double sd = of("posterior_sd")[k];
            double mean = sum[k] / count;
            // the chain behind the values is itself good to about 0.04 standard deviations; between the two fastest
            // speeds the distribution has a long tail, where the spread of either chain is good to some percent
            assertThat(mean).as("node %d", k).isCloseTo(of("posterior_mean")[k], within(0.1 * sd));
            assertThat(Math.sqrt(squares[k] / count - mean * mean))
                    .as("node %d", k)
                    .isCloseTo(sd, within((k == nodes - 2 ? 0.12 : 0.05) * sd));
        }
    }

    @Test
    void componentsAreThoseOfAGeneralMaximiser() {
        double[] stroke = of("components_stroke_mm");
        double[] series = of("components_series");
        double[] error = of("components_error_mm");
        List<PassError> passes = new ArrayList<>();
        int index = 0;
        for (int i = 0; i < error.length; i++) {
            index = i > 0 && stroke[i] == stroke[i - 1] && series[i] == series[i - 1] ? index + 1 : 0;
            passes.add(PassError.ofMove(
                    "pass " + i,
                    stroke[i] + "/" + series[i],
                    index,
                    index > 0,
                    index % 2 == 0 ? 1 : -1,
                    error[i],
                    stroke[i],
                    100,
                    Double.NaN,
                    Double.NaN));
        }
        VarianceComponents components = ComponentFit.of(passes, of("components_reading_variance_mm2")[0]);
        double[] expected = of("components_sd");
        assertThat(components.startScatterMm()).isNotNull();
        assertThat(components.travelScatterMmPerSqrtM()).isNotNull();
        assertThat(components.seriesScatterMm()).isNotNull();
        assertThat(components.startScatterMm().value()).isCloseTo(expected[0], within(2e-5));
        assertThat(components.travelScatterMmPerSqrtM().value()).isCloseTo(expected[1], within(2e-5));
        assertThat(components.seriesScatterMm().value()).isCloseTo(expected[2], within(2e-5));
    }

    private static ShapeModel model() {
        return new ShapeModel(data(), (int) of("sign")[0], of("kappa")[0], false);
    }

    private static FitData data() {
        double[] speeds = of("speeds_mm_s");
        List<PassError> passes = new ArrayList<>();
        for (int i = 0; i < speeds.length; i++) {
            passes.add(PassError.ofMove(
                    "pass " + i,
                    "series " + i,
                    0,
                    false,
                    1,
                    of("error_mm")[i],
                    of("stroke_mm")[0],
                    speeds[i],
                    of("acceleration_mm_s2")[0],
                    Double.NaN));
        }
        return new FitData(
                ConditionRow.of(passes),
                speeds,
                Arrays.stream(of("u_mm")).map(u -> u * u).toArray());
    }

    private static double[] of(String name) {
        return Objects.requireNonNull(VALUES.get(name), name);
    }

    private static Map<String, double[]> read() {
        Map<String, double[]> values = new HashMap<>();
        try (InputStream in = Objects.requireNonNull(CrossCheckTest.class.getResourceAsStream("crosscheck.csv"));
                BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                if (!line.startsWith("#")) {
                    String[] cells = line.split(",");
                    values.put(
                            cells[0],
                            Arrays.stream(cells, 1, cells.length)
                                    .mapToDouble(Double::parseDouble)
                                    .toArray());
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return values;
    }
}
