package slowproof.metrology.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;
import org.junit.jupiter.api.Test;
import slowproof.metrology.sampling.BlockStreams;
import slowproof.metrology.sampling.Moments;

class InputDistributionTest {

    private static final List<InputDistribution> ALL = List.of(
            Normal.of(10, 0.5),
            new Rectangular(9, 12),
            new Triangular(9, 12),
            new Trapezoidal(9, 12, 0),
            new Trapezoidal(9, 12, 0.3),
            new Trapezoidal(9, 12, 1),
            new CurvilinearTrapezoid(9, 12, 0.4),
            new CurvilinearTrapezoid(9, 12, 1.4),
            new UShaped(9, 12),
            new ScaledStudent(10, 0.5, 6.5));

    @Test
    void standardUncertaintyIsThatOfTheStandard() {
        // half-width 1.5: factors 1/sqrt 3, 1/sqrt 6, 1/sqrt 2; trapezoid sqrt((1 + beta^2)/6);
        // inexact limits sqrt(a^2/3 + d^2/9) (JCGM 101:2008 table 1, from memory)
        assertThat(new Rectangular(9, 12).standardUncertainty()).isCloseTo(0.8660254, within(1e-7));
        assertThat(new Triangular(9, 12).standardUncertainty()).isCloseTo(0.6123724, within(1e-7));
        assertThat(new UShaped(9, 12).standardUncertainty()).isCloseTo(1.0606602, within(1e-7));
        assertThat(new Trapezoidal(9, 12, 0.3).standardUncertainty())
                .isCloseTo(1.5 * Math.sqrt(1.09 / 6), within(1e-12));
        assertThat(new CurvilinearTrapezoid(9, 12, 0.4).standardUncertainty())
                .isCloseTo(Math.sqrt(0.75 + 0.16 / 9), within(1e-12));
        for (InputDistribution bounded : ALL.subList(1, 9)) {
            assertThat(bounded.estimate()).isEqualTo(10.5);
            assertThat(bounded.divisor() * bounded.standardUncertainty()).isCloseTo(1.5, within(1e-12));
            assertThat(bounded.degreesOfFreedom()).isInfinite();
            assertThat(bounded.standardDeviation()).isEqualTo(bounded.standardUncertainty());
        }
    }

    @Test
    void momentsOfTheQuantileFunctionAreThoseStated() {
        int n = 200_000;
        for (InputDistribution distribution : ALL) {
            double[] values = new double[n];
            for (int i = 0; i < n; i++) {
                values[i] = distribution.quantile((i + 0.5) / n);
            }
            assertThat(values).as(distribution.toString()).isSorted();
            Moments moments = Moments.of(values);
            assertThat(moments.mean()).as(distribution.toString()).isCloseTo(distribution.estimate(), within(1e-9));
            assertThat(moments.standardDeviation())
                    .as(distribution.toString())
                    .isCloseTo(distribution.standardDeviation(), within(2e-3 * distribution.standardDeviation()));
        }
    }

    @Test
    void samplesFollowTheQuantileFunction() {
        // Kolmogorov-Smirnov: D sqrt n above 1.95 has a probability of about 0.001
        int n = 20_000;
        long seed = Long.getLong("slowproof.seed", 11L);
        BlockStreams streams = BlockStreams.of(seed);
        for (InputDistribution distribution : ALL) {
            ContinuousSampler sampler = distribution.sampler(streams.next());
            double[] values = sampler.samples(n).sorted().toArray();
            double worst = 0;
            for (int k = 1; k < 200; k++) {
                double below = countBelow(values, distribution.quantile(k / 200.0));
                worst = Math.max(worst, Math.abs(below / n - k / 200.0));
            }
            assertThat(worst * Math.sqrt(n))
                    .as("seed %s, %s", seed, distribution)
                    .isLessThan(1.95);
            assertThat(values[0]).isBetween(distribution.quantile(1e-9), distribution.quantile(0.01));
            assertThat(values[n - 1]).isBetween(distribution.quantile(0.99), distribution.quantile(1 - 1e-9));
        }
    }

    private static double countBelow(double[] sorted, double bound) {
        int at = Arrays.binarySearch(sorted, bound);
        return at >= 0 ? at : -at - 1;
    }

    @Test
    void quantilesAreSymmetricAndStayInside() {
        for (InputDistribution distribution : ALL) {
            for (double p : new double[] {1e-12, 1e-4, 0.03, 0.25, 0.4999}) {
                double below = distribution.estimate() - distribution.quantile(p);
                double above = distribution.quantile(1 - p) - distribution.estimate();
                assertThat(above).as("%s at %s", distribution, p).isCloseTo(below, within(1e-3 * below));
                assertThat(below).isPositive();
            }
            assertThat(distribution.quantile(0.5)).isCloseTo(distribution.estimate(), within(1e-12));
            assertThatIllegalArgumentException().isThrownBy(() -> distribution.quantile(0));
            assertThatIllegalArgumentException().isThrownBy(() -> distribution.quantile(1));
            assertThatIllegalArgumentException().isThrownBy(() -> distribution.quantile(Double.NaN));
        }
    }

    @Test
    void trapezoidQuantilesByHand() {
        // base 0 to 4, top 1 to 3: area of a flank 1/6, height 1/3
        Trapezoidal trapezoid = new Trapezoidal(0, 4, 0.5);
        assertThat(trapezoid.quantile(1.0 / 6)).isCloseTo(1, within(1e-12));
        assertThat(trapezoid.quantile(1.0 / 24)).isCloseTo(0.5, within(1e-12));
        assertThat(trapezoid.quantile(1.0 / 3)).isCloseTo(1.5, within(1e-12));
        assertThat(trapezoid.quantile(23.0 / 24)).isCloseTo(3.5, within(1e-12));
        assertThat(new Triangular(0, 4).quantile(0.125)).isCloseTo(1, within(1e-12));
        assertThat(new UShaped(0, 4).quantile(0.25)).isCloseTo(2 - Math.sqrt(2), within(1e-12));
    }

    @Test
    void limitsThatAreAlmostExactMakeARectangle() {
        CurvilinearTrapezoid almost = new CurvilinearTrapezoid(9, 12, 1e-9);
        for (double p : new double[] {0.01, 0.3, 0.9}) {
            assertThat(almost.quantile(p)).isCloseTo(new Rectangular(9, 12).quantile(p), within(1e-8));
        }
    }

    @Test
    void curvedFlankHoldsItsShareOfProbability() {
        // density ln((w + d)/(x - xi))/(4 d) on the lower flank, integrated by hand; w = 1, d = 0.5:
        // below -1: (0.5 - ln 1.5)/2 = 0.047267
        CurvilinearTrapezoid flank = new CurvilinearTrapezoid(-1, 1, 0.5);
        assertThat(flank.quantile((0.5 - Math.log(1.5)) / 2)).isCloseTo(-1, within(1e-12));
        // below -0.5: (1 - 0.5 ln 3)/2 = 0.225347
        assertThat(flank.quantile((1 - 0.5 * Math.log(3)) / 2)).isCloseTo(-0.5, within(1e-12));
        assertThat(flank.quantile(0.5)).isZero();
    }

    @Test
    void studentIsWiderThanItsScale() {
        ScaledStudent student = new ScaledStudent(1, 0.5, 4);
        assertThat(student.standardUncertainty()).isEqualTo(0.5);
        assertThat(student.standardDeviation()).isCloseTo(0.5 * Math.sqrt(2), within(1e-12));
        assertThat(student.degreesOfFreedom()).isEqualTo(4);
        assertThat(student.divisor()).isEqualTo(1);
        // t(0.975, 4) = 2.776445 (tables)
        assertThat(student.quantile(0.975)).isCloseTo(1 + 0.5 * 2.776445, within(1e-6));
        assertThat(new ScaledStudent(1, 0.5, 2).standardDeviation()).isInfinite();
        assertThat(new ScaledStudent(1, 0, 2).standardDeviation()).isZero();
    }

    @Test
    void statementsBecomeStandardUncertainties() {
        Normal certificate = Normal.expanded(3, 0.08, 2);
        assertThat(certificate.standardUncertainty()).isEqualTo(0.04);
        assertThat(certificate.divisor()).isEqualTo(2);
        assertThat(Normal.of(3, 0.04).divisor()).isEqualTo(1);
        assertThat(Rectangular.about(3, 0.5)).isEqualTo(new Rectangular(2.5, 3.5));
        // EA-4/02 S10: 50 and 25 give base 75 and top 25
        assertThat(Trapezoidal.ofSum(1, 25, 50)).isEqualTo(new Trapezoidal(-74, 76, 25.0 / 75));
        assertThat(Trapezoidal.ofSum(0, 3, 3).topRatio()).isZero();
    }

    @Test
    void shapesNameThemselves() {
        assertThat(ALL.stream().map(InputDistribution::shape))
                .containsExactly(
                        Shape.NORMAL,
                        Shape.RECTANGULAR,
                        Shape.TRIANGULAR,
                        Shape.TRAPEZOIDAL,
                        Shape.TRAPEZOIDAL,
                        Shape.TRAPEZOIDAL,
                        Shape.CURVILINEAR_TRAPEZOID,
                        Shape.CURVILINEAR_TRAPEZOID,
                        Shape.U_SHAPED,
                        Shape.STUDENT);
    }

    @Test
    void constantsAreAllowedWhereTheyMakeSense() {
        assertThat(Normal.of(2, 0).sampler(BlockStreams.of(1).next()).sample()).isEqualTo(2);
        assertThat(new Rectangular(2, 2).standardUncertainty()).isZero();
        assertThat(new UShaped(2, 2).quantile(0.1)).isEqualTo(2);
    }

    @Test
    void nonsenseIsRefused() {
        assertThatIllegalArgumentException().isThrownBy(() -> Normal.of(Double.NaN, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> Normal.of(1, -1));
        assertThatIllegalArgumentException().isThrownBy(() -> Normal.expanded(1, 1, 0));
        assertThatIllegalArgumentException().isThrownBy(() -> new Normal(1, 1, 0));
        assertThatIllegalArgumentException().isThrownBy(() -> new Rectangular(2, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> new Rectangular(Double.NEGATIVE_INFINITY, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> new Rectangular(1, Double.POSITIVE_INFINITY));
        assertThatIllegalArgumentException().isThrownBy(() -> Rectangular.about(1, -1));
        assertThatIllegalArgumentException().isThrownBy(() -> new Triangular(2, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> new UShaped(2, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> new Trapezoidal(2, 1, 0.5));
        assertThatIllegalArgumentException().isThrownBy(() -> new Trapezoidal(1, 2, -0.1));
        assertThatIllegalArgumentException().isThrownBy(() -> new Trapezoidal(1, 2, 1.1));
        assertThatIllegalArgumentException().isThrownBy(() -> new Trapezoidal(1, 2, Double.NaN));
        assertThatIllegalArgumentException().isThrownBy(() -> Trapezoidal.ofSum(1, 0, 0));
        assertThatIllegalArgumentException().isThrownBy(() -> new CurvilinearTrapezoid(2, 1, 0.1));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new CurvilinearTrapezoid(1, Double.POSITIVE_INFINITY, 0.1));
        assertThatIllegalArgumentException().isThrownBy(() -> new CurvilinearTrapezoid(1, 2, 0));
        assertThatIllegalArgumentException().isThrownBy(() -> new CurvilinearTrapezoid(1, 2, 0.5));
        assertThatIllegalArgumentException().isThrownBy(() -> new ScaledStudent(Double.NaN, 1, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> new ScaledStudent(1, -1, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> new ScaledStudent(1, 1, 0));
        assertThatIllegalArgumentException().isThrownBy(() -> new ScaledStudent(1, 1, Double.POSITIVE_INFINITY));
    }
}
