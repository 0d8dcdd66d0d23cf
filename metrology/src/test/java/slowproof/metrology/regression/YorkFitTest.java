package slowproof.metrology.regression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

class YorkFitTest {
    private static final double[] X = {0, 1, 2, 3, 4};
    private static final double[] Y = {0.1, 0.9, 2.2, 2.8, 4.1};
    private static final double[] UX = {0.1, 0.2, 0.1, 0.3, 0.2};
    private static final double[] UY = {0.2, 0.1, 0.3, 0.1, 0.2};

    @Test
    void exactAbscissaeGiveTheWeightedLine() {
        StraightLine york = YorkFit.fit(X, Y, new double[5], UY);
        StraightLine known = StraightLine.known(X, Y, UY);
        assertThat(york.slope()).isCloseTo(known.slope(), within(1e-13));
        assertThat(york.intercept()).isCloseTo(known.intercept(), within(1e-13));
        assertThat(york.slopeVariance()).isCloseTo(known.slopeVariance(), within(1e-15));
        assertThat(york.interceptVariance()).isCloseTo(known.interceptVariance(), within(1e-15));
        assertThat(york.covariance()).isCloseTo(known.covariance(), within(1e-15));
        assertThat(york.chiSquare()).isCloseTo(known.chiSquare(), within(1e-12));
        assertThat(york.degreesOfFreedom()).isEqualTo(3);
        assertThat(york.scaleKnown()).isTrue();
    }

    @Test
    void exchangedAxesGiveTheSameLine() {
        StraightLine line = YorkFit.fit(X, Y, UX, UY);
        StraightLine exchanged = YorkFit.fit(Y, X, UY, UX);
        assertThat(exchanged.slope()).isCloseTo(1 / line.slope(), within(1e-12));
        assertThat(exchanged.intercept()).isCloseTo(-line.intercept() / line.slope(), within(1e-12));
        assertThat(exchanged.chiSquare()).isCloseTo(line.chiSquare(), within(1e-11));
    }

    // y' = y + c x turns independent errors into correlated ones and adds c to the slope; nothing else may change.
    @Test
    void shearedAxesWithTheirCorrelationGiveTheShearedLine() {
        StraightLine line = YorkFit.fit(X, Y, UX, UY);
        for (double c : new double[] {-3, -0.5, 0.7, 2}) {
            double[] y = new double[5];
            double[] uy = new double[5];
            double[] r = new double[5];
            for (int i = 0; i < 5; i++) {
                y[i] = Y[i] + c * X[i];
                uy[i] = Math.hypot(UY[i], c * UX[i]);
                r[i] = c * UX[i] / uy[i];
            }
            StraightLine sheared = YorkFit.fit(X, y, UX, uy, r);
            assertThat(sheared.slope()).as("c = %s", c).isCloseTo(line.slope() + c, within(1e-11));
            assertThat(sheared.intercept()).isCloseTo(line.intercept(), within(1e-11));
            assertThat(sheared.slopeVariance()).isCloseTo(line.slopeVariance(), within(1e-12));
            assertThat(sheared.interceptVariance()).isCloseTo(line.interceptVariance(), within(1e-12));
            assertThat(sheared.chiSquare()).isCloseTo(line.chiSquare(), within(1e-10));
        }
    }

    // Closed form of the Deming slope with centred sums (any textbook).
    @Test
    void demingSlopeAgreesWithItsClosedForm() {
        for (double ratio : new double[] {0.2, 1, 7}) {
            double sxx = 0;
            double syy = 0;
            double sxy = 0;
            double mx = Arrays.stream(X).average().orElseThrow();
            double my = Arrays.stream(Y).average().orElseThrow();
            for (int i = 0; i < 5; i++) {
                sxx += (X[i] - mx) * (X[i] - mx);
                syy += (Y[i] - my) * (Y[i] - my);
                sxy += (X[i] - mx) * (Y[i] - my);
            }
            double d = syy - ratio * sxx;
            double slope = (d + Math.sqrt(d * d + 4 * ratio * sxy * sxy)) / (2 * sxy);
            StraightLine line = YorkFit.deming(X, Y, ratio);
            assertThat(line.slope()).as("ratio %s", ratio).isCloseTo(slope, within(1e-12));
            assertThat(line.intercept()).isCloseTo(my - slope * mx, within(1e-12));
            assertThat(line.scaleKnown()).isFalse();
        }
    }

    @Test
    void demingScatterScalesWithTheData() {
        StraightLine line = YorkFit.deming(X, Y, 1);
        double[] tenX = Arrays.stream(X).map(v -> 10 * v).toArray();
        double[] tenY = Arrays.stream(Y).map(v -> 10 * v).toArray();
        StraightLine ten = YorkFit.deming(tenX, tenY, 1);
        assertThat(ten.slopeVariance()).isCloseTo(line.slopeVariance(), within(1e-14));
        assertThat(ten.interceptVariance()).isCloseTo(100 * line.interceptVariance(), within(1e-12));
    }

    @Test
    void statedUncertaintyOfTheSlopeIsItsScatter() {
        long seed = 5;
        Random random = new Random(seed);
        int trials = 4000;
        double sum = 0;
        double squares = 0;
        double stated = 0;
        double chi = 0;
        for (int trial = 0; trial < trials; trial++) {
            double[] x = new double[6];
            double[] y = new double[6];
            double[] ux = new double[6];
            double[] uy = new double[6];
            for (int i = 0; i < 6; i++) {
                ux[i] = 0.05;
                uy[i] = 0.02 * (1 + i);
                x[i] = i + ux[i] * random.nextGaussian();
                y[i] = 1 + 2 * i + uy[i] * random.nextGaussian();
            }
            StraightLine line = YorkFit.fit(x, y, ux, uy);
            sum += line.slope();
            squares += line.slope() * line.slope();
            stated += line.slopeVariance();
            chi += line.chiSquare();
        }
        double mean = sum / trials;
        double variance = squares / trials - mean * mean;
        assertThat(mean).as("seed %d", seed).isCloseTo(2, within(4 * Math.sqrt(variance / trials) + 2e-3));
        // the relative standard deviation of a variance from 4000 trials is 2.2 %
        assertThat(stated / trials / variance).as("seed %d", seed).isBetween(0.92, 1.08);
        assertThat(chi / trials).as("seed %d", seed).isCloseTo(4, within(4 * Math.sqrt(8.0 / trials)));
    }

    @Test
    void inverseReadingAgreesWithTheLine() {
        StraightLine line = StraightLine.ordinary(X, Y);
        StraightLine.Crossing crossing = line.inverse(line.at(2.5), 0.1);
        assertThat(crossing.x()).isCloseTo(2.5, within(1e-13));
        assertThat(crossing.standardUncertainty())
                .isCloseTo(Math.hypot(0.1, line.standardUncertaintyAt(2.5)) / line.slope(), within(1e-13));
    }

    @Test
    void fiellerEndsAreWhereTheBandMeetsTheReading() {
        StraightLine line = StraightLine.ordinary(X, Y);
        double y = 3;
        double u = 0.2;
        Interval interval = line.inverseInterval(y, u, 0.95).orElseThrow();
        double t = Distributions.studentQuantile(0.975, 3);
        for (double end : new double[] {interval.low(), interval.high()}) {
            assertThat(Math.abs(y - line.at(end)))
                    .isCloseTo(t * Math.hypot(u, line.standardUncertaintyAt(end)), within(1e-9));
        }
        assertThat(interval.contains(line.inverse(y, u).x())).isTrue();
        // as the line becomes certain, Fieller's interval becomes the simple one
        StraightLine certain = new StraightLine(1, 2, 1e-12, 1e-12, 0, 0, 9, true);
        Interval simple = certain.inverseInterval(5, 0.1, 0.95).orElseThrow();
        assertThat(simple.width() / 2).isCloseTo(1.959963984540054 * 0.05, within(1e-9));
        assertThat(simple.centre()).isCloseTo(2, within(1e-9));
    }

    @Test
    void slopeThatMayBeZeroGivesNoInverseInterval() {
        StraightLine line = new StraightLine(0, 0.1, 1, 1, 0, 0, 5, true);
        assertThat(line.inverseInterval(3, 0, 0.95)).isEmpty();
        StraightLine level = new StraightLine(0, 0, 1, 1, 0, 0, 5, true);
        assertThatThrownBy(() -> level.inverse(3, 0)).isInstanceOf(IllegalStateException.class);
    }

    @Test
    void rescalingMultipliesTheCovariance() {
        StraightLine known = new StraightLine(1, 2, 0.3, 0.4, -0.1, 6, 3, true);
        StraightLine rescaled = known.rescaled();
        assertThat(rescaled.interceptVariance()).isCloseTo(0.6, within(1e-15));
        assertThat(rescaled.slopeVariance()).isCloseTo(0.8, within(1e-15));
        assertThat(rescaled.covariance()).isCloseTo(-0.2, within(1e-15));
        assertThat(rescaled.rescaled()).isSameAs(rescaled);
        assertThat(rescaled.intercept()).isEqualTo(1);
        assertThat(rescaled.slope()).isEqualTo(2);
        assertThatThrownBy(() -> new StraightLine(1, 2, 0, 0, 0, 0, 0, true).rescaled())
                .isInstanceOf(IllegalStateException.class);
    }

    @Test
    void badArgumentsAreNamed() {
        double[] two = {1, 2};
        assertThatThrownBy(() -> YorkFit.fit(X, two, UX, UY)).hasMessageContaining("ordinates");
        assertThatThrownBy(() -> YorkFit.fit(X, Y, two, UY)).hasMessageContaining("uncertainties of x");
        assertThatThrownBy(() -> YorkFit.fit(X, Y, UX, two)).hasMessageContaining("uncertainties of y");
        assertThatThrownBy(() -> YorkFit.fit(X, Y, UX, UY, two)).hasMessageContaining("correlations");
        assertThatThrownBy(() -> YorkFit.fit(X, Y, new double[5], new double[5]))
                .hasMessageContaining("point 1");
        assertThatThrownBy(() -> YorkFit.fit(X, Y, UX, new double[] {1, 1, 1, 1, -1}))
                .hasMessageContaining("uncertainty of y");
        assertThatThrownBy(() -> YorkFit.fit(X, Y, new double[] {-1, 1, 1, 1, 1}, UY))
                .hasMessageContaining("uncertainty of x");
        assertThatThrownBy(() -> YorkFit.fit(X, Y, UX, UY, new double[] {0, 0, 1, 0, 0}))
                .hasMessageContaining("correlation");
        assertThatThrownBy(() -> YorkFit.fit(X, Y, UX, UY, new double[] {0, 0, Double.NaN, 0, 0}))
                .hasMessageContaining("correlation");
        assertThatThrownBy(() -> YorkFit.deming(two, two, 1)).hasMessageContaining("three points");
        assertThatThrownBy(() -> YorkFit.deming(X, Y, 0)).hasMessageContaining("variance ratio");
        assertThatThrownBy(() -> StraightLine.of(LeastSquares.polynomial(X, Y, 2)))
                .hasMessageContaining("coefficients");
        StraightLine line = StraightLine.ordinary(X, Y);
        assertThatThrownBy(() -> line.inverse(Double.NaN, 0)).hasMessageContaining("observed value");
        assertThatThrownBy(() -> line.inverse(1, -1)).hasMessageContaining("standard uncertainty");
        assertThatThrownBy(() -> line.inverseInterval(1, -1, 0.9)).hasMessageContaining("standard uncertainty");
        assertThatThrownBy(() -> line.inverseInterval(Double.NaN, 1, 0.9)).hasMessageContaining("observed value");
        assertThatThrownBy(() -> line.inverseInterval(1, 1, 1)).hasMessageContaining("confidence");
    }
}
