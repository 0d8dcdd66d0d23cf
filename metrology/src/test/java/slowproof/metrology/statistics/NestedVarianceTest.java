package slowproof.metrology.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.junit.jupiter.api.Test;

class NestedVarianceTest {
    @Test
    void oneLevelIsTheOneWayAnalysis() {
        List<double[]> groups = List.of(new double[] {1, 2, 3}, new double[] {4, 6}, new double[] {8});
        int[][] labels = {{0}, {0}, {0}, {1}, {1}, {2}};
        NestedVariance nested = NestedVariance.of(labels, new double[] {1, 2, 3, 4, 6, 8});
        OneWay oneWay = OneWay.of(groups);
        assertThat(nested.levels()).isEqualTo(1);
        assertThat(nested.mean()).isCloseTo(4, within(1e-14));
        assertThat(nested.sumOfSquares(0)).isCloseTo(30, within(1e-13));
        assertThat(nested.sumOfSquares(1)).isCloseTo(4, within(1e-13));
        assertThat(nested.degreesOfFreedom(0)).isEqualTo(2);
        assertThat(nested.degreesOfFreedom(1)).isEqualTo(3);
        assertThat(nested.meanSquare(0)).isCloseTo(15, within(1e-13));
        assertThat(nested.moment(0)).isCloseTo(oneWay.betweenVariance(), within(1e-12));
        assertThat(nested.moment(1)).isCloseTo(oneWay.withinMeanSquare(), within(1e-13));
    }

    // Balanced: E(MS readings) = s2, E(MS runs) = s2 + 2 r2, E(MS days) = s2 + 2 r2 + 6 d2 for 3 runs of 2 readings.
    @Test
    void balancedReadingsGiveTheTextbookMoments() {
        long seed = 71;
        Random random = new Random(seed);
        List<int[]> labels = new ArrayList<>();
        List<Double> values = new ArrayList<>();
        for (int day = 0; day < 4; day++) {
            double dayError = 3 * random.nextGaussian();
            for (int run = 0; run < 3; run++) {
                double runError = 2 * random.nextGaussian();
                for (int k = 0; k < 2; k++) {
                    labels.add(new int[] {day, run});
                    values.add(100 + dayError + runError + random.nextGaussian());
                }
            }
        }
        NestedVariance nested = NestedVariance.of(
                labels.toArray(new int[0][]),
                values.stream().mapToDouble(Double::doubleValue).toArray());
        double within = nested.meanSquare(2);
        double runs = (nested.meanSquare(1) - within) / 2;
        double days = (nested.meanSquare(0) - nested.meanSquare(1)) / 6;
        assertThat(nested.degreesOfFreedom(0)).isEqualTo(3);
        assertThat(nested.degreesOfFreedom(1)).isEqualTo(8);
        assertThat(nested.degreesOfFreedom(2)).isEqualTo(12);
        assertThat(nested.moment(2)).isCloseTo(within, within(1e-12));
        assertThat(nested.moment(1)).isCloseTo(runs, within(1e-11));
        assertThat(nested.moment(0)).isCloseTo(days, within(1e-11));
        // all components positive: REML is the same
        assertThat(days).as("seed %d", seed).isPositive();
        assertThat(runs).as("seed %d", seed).isPositive();
        assertThat(nested.reml()).containsExactly(new double[] {days, runs, within}, within(1e-4));
    }

    // The likelihood written out with full matrices: REML must not be beaten by any neighbour.
    @Test
    void unbalancedEstimatesHaveTheLargestRestrictedLikelihood() {
        long seed = 72;
        Random random = new Random(seed);
        for (int round = 0; round < 5; round++) {
            List<int[]> labels = new ArrayList<>();
            List<Double> list = new ArrayList<>();
            for (int day = 0; day < 5; day++) {
                double dayError = 2 * random.nextGaussian();
                for (int run = 0; run < 1 + random.nextInt(4); run++) {
                    double runError = 1.5 * random.nextGaussian();
                    for (int k = 0; k < 1 + random.nextInt(4); k++) {
                        labels.add(new int[] {day, run});
                        list.add(dayError + runError + random.nextGaussian());
                    }
                }
            }
            int[][] rows = labels.toArray(new int[0][]);
            double[] values = list.stream().mapToDouble(Double::doubleValue).toArray();
            double[] found = NestedVariance.of(rows, values).reml();
            double best = restricted(rows, values, found);
            for (int k = 0; k < 3; k++) {
                for (double step : new double[] {-1e-2, 1e-2, 0.3}) {
                    double[] moved = found.clone();
                    moved[k] = Math.max(0, moved[k] + step);
                    assertThat(restricted(rows, values, moved))
                            .as("seed %d, round %d, component %d, step %s", seed, round, k, step)
                            .isLessThanOrEqualTo(best + 1e-9);
                }
            }
        }
    }

    @Test
    void oneUnbalancedLevelHasTheLargestRestrictedLikelihoodToo() {
        int[][] labels = {{0}, {0}, {0}, {1}, {1}, {2}};
        double[] values = {1, 2, 3, 4, 6, 8};
        double[] found = NestedVariance.of(labels, values).reml();
        double best = restricted(labels, values, found);
        for (double step : new double[] {-0.05, 0.05, -1, 1}) {
            assertThat(restricted(labels, values, new double[] {found[0] + step, found[1]}))
                    .isLessThan(best);
            assertThat(restricted(labels, values, new double[] {found[0], found[1] + step / 2}))
                    .isLessThan(best);
        }
    }

    @Test
    void componentThatTheDataDenyIsZero() {
        // group means closer than the scatter within explains
        int[][] labels = {{0}, {0}, {1}, {1}, {2}, {2}};
        double[] values = {-1, 1.1, -1.1, 1, -1, 1};
        NestedVariance nested = NestedVariance.of(labels, values);
        assertThat(nested.moment(0)).isNegative();
        double[] reml = nested.reml();
        assertThat(reml[0]).isZero();
        // without groups the restricted estimate is the variance of all readings
        double all = Statistics.standardDeviation(values);
        assertThat(reml[1]).isCloseTo(all * all, within(1e-9));
        // two levels, both denied
        int[][] two = {{0, 0}, {0, 0}, {0, 1}, {0, 1}, {1, 0}, {1, 0}, {1, 1}, {1, 1}};
        double[] level = {-1, 1, -1, 1, -1, 1.2, -1, 1};
        double[] components = NestedVariance.of(two, level).reml();
        assertThat(components[0]).isCloseTo(0, within(1e-8));
        assertThat(components[1]).isCloseTo(0, within(1e-8));
    }

    @Test
    void largeCommonPartCostsNothing() {
        int[][] labels = {{0}, {0}, {0}, {1}, {1}, {2}};
        NestedVariance far =
                NestedVariance.of(labels, new double[] {1e9 + 1, 1e9 + 2, 1e9 + 3, 1e9 + 4, 1e9 + 6, 1e9 + 8});
        NestedVariance near = NestedVariance.of(labels, new double[] {1, 2, 3, 4, 6, 8});
        assertThat(far.moment(0)).isCloseTo(near.moment(0), within(1e-12));
        assertThat(far.reml()[0]).isCloseTo(near.reml()[0], within(1e-9));
        assertThat(far.mean()).isEqualTo(1e9 + 4);
    }

    @Test
    void badArgumentsAreNamed() {
        double[] two = {1, 2};
        assertThatThrownBy(() -> NestedVariance.of(new int[][] {{0}}, two)).hasMessageContaining("labels");
        assertThatThrownBy(() -> NestedVariance.of(new int[0][], new double[0])).hasMessageContaining("labels");
        assertThatThrownBy(() -> NestedVariance.of(new int[2][0], two)).hasMessageContaining("labels");
        assertThatThrownBy(() -> NestedVariance.of(new int[][] {{0}, {0, 1}}, two))
                .hasMessageContaining("1 labels");
        assertThatThrownBy(() -> NestedVariance.of(new int[][] {{0}, {0}}, new double[] {1, Double.NaN}))
                .hasMessageContaining("NaN");
        assertThatThrownBy(() -> NestedVariance.of(new int[][] {{0}, {1}}, two)).hasMessageContaining("level 1");
        assertThatThrownBy(() -> NestedVariance.of(new int[][] {{0}, {0}}, two)).hasMessageContaining("level 0");
        NestedVariance level = NestedVariance.of(new int[][] {{0}, {0}, {1}}, new double[] {1, 1, 2});
        assertThatThrownBy(level::reml).isInstanceOf(IllegalStateException.class);
    }

    private static double restricted(int[][] labels, double[] values, double[] components) {
        int n = values.length;
        int levels = labels[0].length;
        RealMatrix v = new Array2DRowRealMatrix(n, n);
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                double sum = i == j ? components[levels] : 0;
                boolean same = true;
                for (int k = 0; k < levels; k++) {
                    same &= labels[i][k] == labels[j][k];
                    sum += same ? components[k] : 0;
                }
                v.setEntry(i, j, sum);
            }
        }
        LUDecomposition lu = new LUDecomposition(v);
        RealMatrix inverse = lu.getSolver().getInverse();
        double[] ones = new double[n];
        Arrays.fill(ones, 1);
        double[] weights = inverse.operate(ones);
        double total = 0;
        double weighted = 0;
        for (int i = 0; i < n; i++) {
            total += weights[i];
            weighted += weights[i] * values[i];
        }
        double[] residuals = values.clone();
        for (int i = 0; i < n; i++) {
            residuals[i] -= weighted / total;
        }
        double misfit = 0;
        double[] scaled = inverse.operate(residuals);
        for (int i = 0; i < n; i++) {
            misfit += residuals[i] * scaled[i];
        }
        return -(Math.log(lu.getDeterminant()) + Math.log(total) + misfit) / 2;
    }
}
