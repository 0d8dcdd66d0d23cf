package slowproof.metrology.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;
import slowproof.metrology.reference.Agreement;
import slowproof.metrology.reference.ReferenceCase;
import slowproof.metrology.reference.ReferenceCases;

class OneWayTest {
    // By hand: group means 2, 5, 8 (one reading), grand mean 4; between 3*4 + 2*1 + 1*16 = 30; within 2 + 2 = 4.
    private static final List<double[]> UNEQUAL =
            List.of(new double[] {1, 2, 3}, new double[] {4, 6}, new double[] {8});

    @Test
    void unequalGroupsAgreeWithHandCalculation() {
        OneWay oneWay = OneWay.of(UNEQUAL);
        assertThat(oneWay.grandMean()).isCloseTo(4, within(1e-14));
        assertThat(oneWay.betweenSumOfSquares()).isCloseTo(30, within(1e-13));
        assertThat(oneWay.withinSumOfSquares()).isCloseTo(4, within(1e-13));
        assertThat(oneWay.betweenDegreesOfFreedom()).isEqualTo(2);
        assertThat(oneWay.withinDegreesOfFreedom()).isEqualTo(3);
        assertThat(oneWay.betweenMeanSquare()).isCloseTo(15, within(1e-13));
        assertThat(oneWay.withinMeanSquare()).isCloseTo(4.0 / 3, within(1e-14));
        assertThat(oneWay.f()).isCloseTo(11.25, within(1e-12));
        assertThat(oneWay.pValue()).isCloseTo(1 - Distributions.fCdf(11.25, 2, 3), within(1e-12));
        assertThat(oneWay.betweenShare()).isCloseTo(30.0 / 34, within(1e-14));
        // n0 = (6 - 14/6)/2
        assertThat(oneWay.effectiveGroupSize()).isCloseTo(11.0 / 6, within(1e-14));
        assertThat(oneWay.betweenVariance()).isCloseTo((15 - 4.0 / 3) / (11.0 / 6), within(1e-12));
    }

    // NIST StRD SmLs05, 06, 08 and 09 are SmLs02 and 03 with 1e6 and 1e12 added to every reading; the certified values
    // stay the same (NIST Statistical Reference Datasets, Analysis of Variance; from memory). Rounding the readings to
    // doubles costs the larger ones all but four digits; the arithmetic itself may cost nothing.
    @Test
    void largeCommonPartCostsNoMoreDigitsThanRoundingTheReadings() {
        for (String name : List.of("smls02", "smls03")) {
            ReferenceCase small = ReferenceCases.load("strd/anova/strd-anova-" + name);
            for (long added : new long[] {1_000_000L, 1_000_000_000_000L}) {
                List<double[]> groups = new ArrayList<>();
                small.data().grouped("group", "y").values().forEach(group -> groups.add(shifted(group, added)));
                OneWay oneWay = OneWay.of(groups);
                assertThat(Agreement.digits(oneWay.f(), small.expected("F").value()))
                        .as("F of %s with %d added", name, added)
                        .isGreaterThanOrEqualTo(added > 1_000_000L ? 4 : 8);
                double[] exact = exactSums(groups);
                assertThat(Agreement.digits(oneWay.betweenSumOfSquares(), exact[0]))
                        .isGreaterThan(10);
                assertThat(Agreement.digits(oneWay.withinSumOfSquares(), exact[1]))
                        .isGreaterThan(10);
            }
        }
    }

    // sums of squares between and within, of the doubles as they are, in 60 digits
    private static double[] exactSums(List<double[]> groups) {
        MathContext digits = new MathContext(60);
        BigDecimal total = BigDecimal.ZERO;
        BigDecimal squares = BigDecimal.ZERO;
        BigDecimal groupPart = BigDecimal.ZERO;
        int count = 0;
        for (double[] group : groups) {
            BigDecimal sum = BigDecimal.ZERO;
            for (double value : group) {
                sum = sum.add(new BigDecimal(value));
                squares = squares.add(new BigDecimal(value).pow(2));
            }
            total = total.add(sum);
            count += group.length;
            groupPart = groupPart.add(sum.pow(2).divide(BigDecimal.valueOf(group.length), digits));
        }
        BigDecimal mean = total.pow(2).divide(BigDecimal.valueOf(count), digits);
        return new double[] {
            groupPart.subtract(mean).doubleValue(), squares.subtract(groupPart).doubleValue()
        };
    }

    // the decimal reading, moved and only then rounded to a double
    private static double[] shifted(double[] group, long added) {
        double[] result = new double[group.length];
        for (int i = 0; i < group.length; i++) {
            result[i] = new BigDecimal(String.valueOf(group[i]))
                    .add(BigDecimal.valueOf(added))
                    .doubleValue();
        }
        return result;
    }

    @Test
    void extremesOfTheRatioHaveTheirProbabilities() {
        OneWay same = OneWay.of(List.of(new double[] {1, 3}, new double[] {1, 3}));
        assertThat(same.f()).isZero();
        assertThat(same.pValue()).isEqualTo(1);
        assertThat(same.betweenVariance()).isZero();
        OneWay apart = OneWay.of(List.of(new double[] {1, 1}, new double[] {2, 2}));
        assertThat(apart.f()).isInfinite();
        assertThat(apart.pValue()).isZero();
        OneWay equal = OneWay.of(List.of(new double[] {1, 1}, new double[] {1, 1}));
        assertThatThrownBy(equal::pValue).isInstanceOf(IllegalStateException.class);
    }

    @Test
    void precisionSplitsTheVariance() {
        Precision precision = Precision.of(UNEQUAL);
        assertThat(precision.mean()).isCloseTo(4, within(1e-14));
        assertThat(precision.repeatability()).isCloseTo(Math.sqrt(4.0 / 3), within(1e-14));
        double between = (15 - 4.0 / 3) / (11.0 / 6);
        assertThat(precision.betweenGroups()).isCloseTo(Math.sqrt(between), within(1e-12));
        assertThat(precision.reproducibility()).isCloseTo(Math.sqrt(4.0 / 3 + between), within(1e-12));
        assertThat(precision.repeatabilityLimit()).isCloseTo(2.8 * Math.sqrt(4.0 / 3), within(1e-12));
        assertThat(precision.reproducibilityLimit()).isCloseTo(2.8 * Math.sqrt(4.0 / 3 + between), within(1e-12));
        assertThat(precision.groups()).isEqualTo(3);
        assertThat(precision.repeatabilityDegreesOfFreedom()).isEqualTo(3);
        assertThat(precision.analysis()).isEqualTo(OneWay.of(UNEQUAL));
    }

    @Test
    void mandelComparesMeansAndScatters() {
        List<double[]> groups = List.of(new double[] {0, 2}, new double[] {3, 5}, new double[] {4, 10});
        // means 1, 4, 7: mean 4, standard deviation 3
        assertThat(Mandel.h(groups)).containsExactly(new double[] {-1, 0, 1}, within(1e-14));
        // standard deviations sqrt(2), sqrt(2), sqrt(18): root mean square sqrt(22/3)
        double root = Math.sqrt(22.0 / 3);
        assertThat(Mandel.k(groups))
                .containsExactly(
                        new double[] {Math.sqrt(2) / root, Math.sqrt(2) / root, Math.sqrt(18) / root}, within(1e-14));
    }

    @Test
    void bartlettAndLeveneOfAlikeGroupsAreZero() {
        List<double[]> alike = List.of(new double[] {1, 2, 3}, new double[] {4, 5, 6});
        assertThat(VarianceTests.bartlett(alike).statistic()).isCloseTo(0, within(1e-12));
        assertThat(VarianceTests.bartlett(alike).pValue()).isCloseTo(1, within(1e-6));
        assertThat(VarianceTests.levene(alike).statistic()).isCloseTo(0, within(1e-12));
        assertThat(VarianceTests.levene(alike).pValue()).isCloseTo(1, within(1e-12));
        List<double[]> level = List.of(new double[] {1, 1}, new double[] {2, 2});
        assertThat(VarianceTests.levene(level)).isEqualTo(new VarianceTests.Result(0, 1));
    }

    // By hand: variances 1 and 4 with 2 degrees of freedom each: 4 ln 2.5 - 2 ln 1 - 2 ln 4 over 1 + (1 - 1/4)/3.
    @Test
    void bartlettAgreesWithHandCalculation() {
        VarianceTests.Result result = VarianceTests.bartlett(List.of(new double[] {1, 2, 3}, new double[] {2, 4, 6}));
        double statistic = (4 * Math.log(2.5) - 2 * Math.log(4)) / 1.25;
        assertThat(result.statistic()).isCloseTo(statistic, within(1e-12));
        assertThat(result.pValue()).isCloseTo(1 - Distributions.chiSquaredCdf(statistic, 1), within(1e-12));
    }

    // Distances from the medians 2.5 and 3: {1.5, .5, .5, 1.5} and {2, 0, 2, 0, 4}; even and odd group sizes.
    @Test
    void leveneAgreesWithHandCalculation() {
        VarianceTests.Result result =
                VarianceTests.levene(List.of(new double[] {1, 2, 3, 4}, new double[] {1, 3, 5, 3, 7}));
        OneWay distances = OneWay.of(List.of(new double[] {1.5, 0.5, 0.5, 1.5}, new double[] {2, 0, 2, 0, 4}));
        assertThat(result.statistic()).isCloseTo(distances.f(), within(1e-13));
        assertThat(result.pValue()).isCloseTo(distances.pValue(), within(1e-13));
    }

    @Test
    void badArgumentsAreNamed() {
        double[] two = {1, 2};
        double[] one = {1};
        double[] broken = {1, Double.NaN};
        assertThatThrownBy(() -> OneWay.of(List.of(two))).hasMessageContaining("two groups");
        assertThatThrownBy(() -> OneWay.of(List.of(two, new double[0]))).hasMessageContaining("no reading");
        assertThatThrownBy(() -> OneWay.of(List.of(one, one))).hasMessageContaining("two readings");
        assertThatThrownBy(() -> OneWay.of(List.of(two, broken))).hasMessageContaining("NaN");
        assertThatThrownBy(() -> Mandel.h(List.of(two, two))).hasMessageContaining("three groups");
        assertThatThrownBy(() -> Mandel.h(List.of(two, two, two))).hasMessageContaining("equal");
        assertThatThrownBy(() -> Mandel.k(List.of(two))).hasMessageContaining("two groups");
        assertThatThrownBy(() -> Mandel.k(List.of(two, one))).hasMessageContaining("two values");
        double[] level = {3, 3};
        assertThatThrownBy(() -> Mandel.k(List.of(level, level))).hasMessageContaining("scatter");
        assertThatThrownBy(() -> Mandel.hCritical(0, 5)).hasMessageContaining("level");
        assertThatThrownBy(() -> Mandel.hCritical(0.05, 2)).hasMessageContaining("three groups");
        assertThatThrownBy(() -> Mandel.kCritical(0.05, 1, 2)).hasMessageContaining("groups");
        assertThatThrownBy(() -> Mandel.kCritical(0.05, 2, 1)).hasMessageContaining("groups");
        assertThatThrownBy(() -> Mandel.kCritical(1, 2, 2)).hasMessageContaining("level");
        assertThatThrownBy(() -> VarianceTests.bartlett(List.of(two))).hasMessageContaining("two groups");
        assertThatThrownBy(() -> VarianceTests.bartlett(List.of(two, one))).hasMessageContaining("two readings");
        assertThatThrownBy(() -> VarianceTests.bartlett(List.of(two, level))).hasMessageContaining("equal readings");
        assertThatThrownBy(() -> VarianceTests.levene(List.of(two, broken))).hasMessageContaining("NaN");
        assertThatThrownBy(() -> VarianceTests.levene(List.of(two))).hasMessageContaining("two groups");
    }
}
