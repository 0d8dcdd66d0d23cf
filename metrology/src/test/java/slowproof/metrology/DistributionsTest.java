package slowproof.metrology;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** The expected values were computed with mpmath 1.3 at 40 digits from the incomplete beta and gamma functions. */
class DistributionsTest {

    private static final double INFINITE = Double.POSITIVE_INFINITY;

    private static void assertClose(double actual, double expected, double relative) {
        assertThat(actual).isCloseTo(expected, within(Math.abs(expected) * relative));
    }

    @Test
    void studentQuantilesHoldInTheTailsAndForBrokenDegreesOfFreedom() {
        double[][] cases = {
            {0.97725, 26.189, 2.1000910515398057},
            {0.97725, 3.0, 3.3068299207201086},
            {0.995, 1.0, 63.656741162871526},
            {0.975, 0.5, 164.55767348048823},
            {0.999999, 7.3, 13.493523060689595},
            {1e-12, 4.5, -670.942702505106},
            {1e-30, 2.5, -876543788227.9991},
            {0.500001, 5.0, 2.6343055242196797e-6},
            {0.97725, 1000000.0, 2.000004943910608},
            {0.975, 123456.7, 1.9599832001362323},
            {0.9999999999, 1.5, 2422662.9674997074},
            {0.977249868051821, 19.272367140540023, 2.138377857491693}
        };
        for (double[] c : cases) {
            assertClose(Distributions.studentQuantile(c[0], c[1]), c[2], 1e-9);
        }
    }

    @Test
    void studentProbabilitiesHoldInTheTails() {
        double[][] cases = {
            {-40.0, 3.0, 1.7190340394579263e-5},
            {-8.5, 26.189, 2.6270791178646347e-9},
            {2.5, 26.189, 0.9904969569111927},
            {-100000.0, 2.5, 2.274751923175622e-13},
            {0.001, 4.0, 0.5003749999218751},
            {-2.0, 10000000.0, 0.022750145445921476},
            {-6.0, 500000.5, 9.872622659408239e-10}
        };
        for (double[] c : cases) {
            assertClose(Distributions.studentCdf(c[0], c[1]), c[2], 1e-9);
        }
    }

    @Test
    void chiSquaredQuantilesHoldInBothTails() {
        double[][] cases = {
            {0.975, 9.0, 19.022767798641635},
            {0.025, 9.0, 2.700389499980358},
            {0.975, 0.5, 3.4332352999607743},
            {0.001, 0.5, 1.349939578623075e-12},
            {1e-10, 26.189, 2.11857617151905},
            {0.9999999, 26.189, 82.39715475001339},
            {0.5, 100000.0, 99999.33333412347},
            {0.95, 1.0, 3.8414588206941245},
            {1e-9, 1.0, 1.5707963267948968e-18}
        };
        for (double[] c : cases) {
            assertClose(Distributions.chiSquaredQuantile(c[0], c[1]), c[2], 1e-9);
        }
    }

    @Test
    void chiSquaredProbabilitiesHoldInTheLowerTail() {
        double[][] cases = {
            {3.0, 2.5, 0.694150370554182},
            {1e-06, 3.3, 2.7009562671081726e-11},
            {400.0, 350.5, 0.9650905430992746},
            {0.1, 26.189, 1.1021521435148408e-27}
        };
        for (double[] c : cases) {
            assertClose(Distributions.chiSquaredCdf(c[0], c[1]), c[2], 1e-9);
        }
        assertThat(Distributions.chiSquaredCdf(-1, 3)).isZero();
    }

    @Test
    void varianceRatioQuantilesHoldInBothTails() {
        double[][] cases = {
            {0.99, 2.0, 18.0, 6.012904834800527},
            {0.95, 1.0, 10.0, 4.964602743730712},
            {0.001, 26.189, 3.7, 0.15089877229627982},
            {0.9999999, 5.5, 2.25, 1820685.692247009},
            {1e-9, 4.0, 30.0, 2.165098926886055e-5},
            {0.5, 1.0, 1.0, 1.0},
            {0.975, 400.5, 10000.0, 1.146537373070742}
        };
        for (double[] c : cases) {
            assertClose(Distributions.fQuantile(c[0], c[1], c[2]), c[3], 1e-9);
        }
    }

    @Test
    void varianceRatioProbabilitiesHold() {
        assertClose(Distributions.fCdf(1e-8, 3.5, 7.0), 1.9585023194852132e-14, 1e-9);
        assertClose(Distributions.fCdf(4.5, 26.189, 12.5), 0.9961518739357405, 1e-12);
        assertClose(Distributions.fCdf(100.0, 2.0, 3.0), 0.9982034561363896, 1e-12);
    }

    @Test
    void normalHoldsFarOut() {
        assertClose(Distributions.normalCdf(-37), 5.725571222524577e-300, 1e-9);
        assertClose(Distributions.normalCdf(-8), 6.220960574271784e-16, 1e-12);
        assertClose(Distributions.normalCdf(1.96), 0.9750021048517795, 1e-14);
        assertClose(Distributions.normalQuantile(1e-300), -37.0470962993612, 1e-12);
        assertClose(Distributions.normalQuantile(1e-20), -9.262340089798407, 1e-12);
        assertClose(Distributions.normalQuantile(0.975), 1.9599639845400538, 1e-14);
        assertClose(Distributions.normalQuantile(0.500001), 2.5066282747057052e-6, 1e-9);
    }

    @Test
    void infiniteDegreesOfFreedomAreTheLimitingDistribution() {
        assertThat(Distributions.studentQuantile(0.975, INFINITE)).isEqualTo(Distributions.normalQuantile(0.975));
        assertThat(Distributions.studentCdf(-1.3, INFINITE)).isEqualTo(Distributions.normalCdf(-1.3));
        assertThat(Distributions.studentQuantile(0.01, 1e300)).isEqualTo(Distributions.normalQuantile(0.01));
        // F with an infinite denominator is chi-squared over its degrees of freedom: 5 % point 3.8415 at 1 (tables)
        assertClose(Distributions.fQuantile(0.95, 1, INFINITE), 3.8414588206941245, 1e-9);
        assertClose(Distributions.fCdf(3.8414588206941245, 1, INFINITE), 0.95, 1e-12);
        // with 9 degrees of freedom: 19.0228/9 (tables of chi-squared)
        assertClose(Distributions.fQuantile(0.975, 9, INFINITE), 19.022767798641635 / 9, 1e-9);
        assertClose(Distributions.fCdf(19.022767798641635 / 9, 9, INFINITE), 0.975, 1e-12);
        // with an infinite numerator the reciprocal: 9/2.7003895 at 97.5 %
        assertClose(Distributions.fQuantile(0.975, INFINITE, 9), 9 / 2.700389499980358, 1e-9);
        assertClose(Distributions.fCdf(9 / 2.700389499980358, INFINITE, 9), 0.975, 1e-12);
        assertThat(Distributions.fCdf(0, INFINITE, 9)).isZero();
        assertThat(Distributions.fCdf(0.999, INFINITE, INFINITE)).isZero();
        assertThat(Distributions.fCdf(1, INFINITE, INFINITE)).isEqualTo(1);
        assertThat(Distributions.fQuantile(0.3, INFINITE, INFINITE)).isEqualTo(1);
    }

    @Test
    void quantileIsTheInverseOfTheProbability() {
        long seed = Long.getLong("slowproof.seed", 20260101L);
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 2000; i++) {
            double p = Math.exp(-30 * random.nextDouble());
            double nu = Math.exp(-1 + 15 * random.nextDouble());
            double n2 = Math.exp(-1 + 10 * random.nextDouble());
            String at = "seed " + seed + ", p " + p + ", nu " + nu + ", n2 " + n2;
            double t = Distributions.studentQuantile(p, nu);
            assertThat(Distributions.studentCdf(t, nu)).as("t, " + at).isCloseTo(p, within(1e-10 * p));
            double chi = Distributions.chiSquaredQuantile(p, nu);
            assertThat(Distributions.chiSquaredCdf(chi, nu)).as("chi, " + at).isCloseTo(p, within(1e-10 * p));
            double f = Distributions.fQuantile(p, nu, n2);
            // far below the smallest double near zero degrees of freedom the quantile is no longer a number
            if (f > 1e-290) {
                assertThat(Distributions.fCdf(f, nu, n2)).as("F, " + at).isCloseTo(p, within(1e-9 * p));
            }
        }
    }

    @Test
    void studentIsSymmetric() {
        for (double p : new double[] {0.5, 0.25, 0.125, 0.0078125}) {
            for (double nu : new double[] {0.7, 3, 26.189, INFINITE}) {
                assertThat(Distributions.studentQuantile(1 - p, nu))
                        .isEqualTo(-Distributions.studentQuantile(p, nu) + 0.0);
            }
        }
    }

    @Test
    void endsOfTheRangeAreTheEndsOfTheSupport() {
        assertThat(Distributions.studentQuantile(0, 4)).isEqualTo(-INFINITE);
        assertThat(Distributions.studentQuantile(1, 4)).isEqualTo(INFINITE);
        assertThat(Distributions.normalQuantile(1)).isEqualTo(INFINITE);
        assertThat(Distributions.chiSquaredQuantile(0, 4)).isZero();
        assertThat(Distributions.chiSquaredQuantile(1, 4)).isEqualTo(INFINITE);
        assertThat(Distributions.fQuantile(0, 4, 2)).isZero();
        assertThat(Distributions.fQuantile(1, 4, 2)).isEqualTo(INFINITE);
        assertThat(Distributions.studentCdf(-INFINITE, 4)).isZero();
        assertThat(Distributions.studentCdf(INFINITE, 4)).isEqualTo(1);
    }

    @Test
    void nonsenseIsRefused() {
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.studentQuantile(1.1, 4));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.studentQuantile(-0.1, 4));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.studentQuantile(Double.NaN, 4));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.studentQuantile(0.9, 0));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.studentCdf(0.9, Double.NaN));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.studentCdf(Double.NaN, 4));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.normalCdf(Double.NaN));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.normalQuantile(2));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.chiSquaredQuantile(0.5, INFINITE));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.chiSquaredQuantile(2, 3));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.chiSquaredCdf(Double.NaN, 3));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.fQuantile(0.5, -1, 3));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.fQuantile(0.5, 1, 0));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.fQuantile(2, 1, 3));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.fCdf(1, 0, 3));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.fCdf(1, 1, 0));
        assertThatIllegalArgumentException().isThrownBy(() -> Distributions.fCdf(Double.NaN, 1, 3));
    }
}
