package slowproof.metrology.regression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

class HingeFitTest {
    @Test
    void noGridOfMeetingPointsFindsABetterFit() {
        long seed = 17;
        Random random = new Random(seed);
        for (int round = 0; round < 40; round++) {
            double[] x = new double[9];
            double[] y = new double[9];
            for (int i = 0; i < 9; i++) {
                x[i] = i + 0.3 * random.nextDouble();
                y[i] = 0.5 * x[i] + Math.max(0, x[i] - 4) + random.nextGaussian();
            }
            HingeFit fit = HingeFit.fit(x, y);
            assertThat(fit.meetingPoint()).isBetween(x[1], x[7]);
            for (int k = 0; k <= 500; k++) {
                double c = x[1] + (x[7] - x[1]) * k / 500;
                double[][] rows = new double[9][];
                for (int i = 0; i < 9; i++) {
                    rows[i] = new double[] {1, x[i], Math.max(0, x[i] - c)};
                }
                assertThat(fit.residualSumOfSquares())
                        .as("seed %d, round %d, c = %s", seed, round, c)
                        .isLessThanOrEqualTo(LeastSquares.ordinary(rows, y).residualSumOfSquares() * (1 + 1e-12));
            }
        }
    }

    @Test
    void exactHingeIsFoundWhateverTheOrderOfThePoints() {
        double[] x = {5, 0, 1, 2, 3, 4};
        double[] y = new double[6];
        for (int i = 0; i < 6; i++) {
            y[i] = 1 + 2 * x[i] - 3 * Math.max(0, x[i] - 2.5);
        }
        HingeFit fit = HingeFit.fit(x, y);
        assertThat(fit.meetingPoint()).isCloseTo(2.5, within(1e-12));
        assertThat(fit.intercept()).isCloseTo(1, within(1e-12));
        assertThat(fit.firstSlope()).isCloseTo(2, within(1e-12));
        assertThat(fit.changeOfSlope()).isCloseTo(-3, within(1e-12));
        assertThat(fit.value(2)).isCloseTo(5, within(1e-12));
        assertThat(fit.value(4)).isCloseTo(4.5, within(1e-12));
        assertThat(fit.degreesOfFreedom()).isEqualTo(2);
    }

    @Test
    void intervalOfTheMeetingPointEndsWhereTheFitIsWorseByTheQuantile() {
        Random random = new Random(2);
        double[] x = new double[30];
        double[] y = new double[30];
        for (int i = 0; i < 30; i++) {
            x[i] = i;
            y[i] = 1 + Math.max(0, x[i] - 12) + 0.8 * random.nextGaussian();
        }
        HingeFit fit = HingeFit.fit(x, y);
        Interval interval = fit.meetingPointInterval(0.95);
        assertThat(interval.contains(fit.meetingPoint())).isTrue();
        assertThat(interval.contains(12)).isTrue();
        double limit = fit.residualSumOfSquares() * (1 + Distributions.fQuantile(0.95, 1, 26) / 26);
        for (double end : new double[] {interval.low(), interval.high()}) {
            double[][] rows = new double[30][];
            for (int i = 0; i < 30; i++) {
                rows[i] = new double[] {1, x[i], Math.max(0, x[i] - end)};
            }
            assertThat(LeastSquares.ordinary(rows, y).residualSumOfSquares()).isCloseTo(limit, within(1e-6 * limit));
        }
        assertThat(fit.meetingPointInterval(0.5).width()).isLessThan(interval.width());
    }

    @Test
    void straightDataLeaveTheMeetingPointOpen() {
        Random random = new Random(4);
        double[] x = new double[12];
        double[] y = new double[12];
        for (int i = 0; i < 12; i++) {
            x[i] = i;
            y[i] = i + random.nextGaussian();
        }
        Interval interval = HingeFit.fit(x, y).meetingPointInterval(0.99);
        assertThat(interval.low()).isEqualTo(1);
        assertThat(interval.high()).isEqualTo(10);
    }

    @Test
    void badArgumentsAreNamed() {
        double[] four = {1, 2, 3, 4};
        assertThatThrownBy(() -> HingeFit.fit(four, four)).hasMessageContaining("five points");
        double[] tied = {1, 1, 2, 2, 3, 3};
        assertThatThrownBy(() -> HingeFit.fit(tied, tied)).hasMessageContaining("four places");
        assertThatThrownBy(() -> HingeFit.fit(four, tied)).hasMessageContaining("values");
        double[] broken = {1, 2, 3, 4, Double.NaN};
        double[] five = {1, 2, 3, 4, 5};
        assertThatThrownBy(() -> HingeFit.fit(broken, five)).hasMessageContaining("abscissae");
        assertThatThrownBy(() -> HingeFit.fit(five, broken)).hasMessageContaining("values");
        double[] wavy = {1, 2, 1, 4, 5};
        assertThatThrownBy(() -> HingeFit.fit(five, wavy).meetingPointInterval(1))
                .hasMessageContaining("confidence");
    }
}
