package slowproof.trial.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The integral of eps(v) v over time against closed forms and against a plain sum. */
class TimeIntegrationTest {
    private static final double STROKE_MM = 1000;
    private static final double ACCELERATION = 500;

    private static double error(TrueCurve curve, double strokeMm, Drive drive) {
        Motion motion = Motion.builder().move(strokeMm, drive).build();
        return motion.integrate(v -> curve.at(v) * v, 0, motion.durationS());
    }

    private static double error(TrueCurve curve, double speedMmPerS) {
        return error(curve, STROKE_MM, Drive.of(speedMmPerS, ACCELERATION));
    }

    @Test
    void powerLawErrorsAgreeWithTheIntegralOverTheRamps() {
        // both ramps: 2 integral_0^V k v^n v dv / a = 2 k V^(n+2) / ((n + 2) a); plateau: k V^n (S - V^2 / a)
        for (double n : new double[] {0, 1, 2.5}) {
            double v = 240;
            double expected =
                    1e-4 * Math.pow(v, n) * (2 * v * v / ((n + 2) * ACCELERATION) + STROKE_MM - v * v / ACCELERATION);
            assertThat(error(u -> 1e-4 * Math.pow(u, n), v)).isCloseTo(expected, within(1e-9 * expected));
        }
    }

    @Test
    void unequalRampsSpendHalfTheSquareOverEachAcceleration() {
        // a step at v0: the distance below it is v0^2 / (2 a) + v0^2 / (2 d)
        Drive drive = Drive.of(200, 400).withDeceleration(800);
        double lost = error(v -> v < 60 ? -1 : 0, STROKE_MM, drive);
        assertThat(lost).isCloseTo(-(60.0 * 60 / 800 + 60.0 * 60 / 1600), within(1e-5));
    }

    @ParameterizedTest
    @EnumSource(CurveShape.class)
    void slopeOfThePassErrorIsTheSlopeOfTheCurveTimesThePlateau(CurveShape shape) {
        // At fixed stroke and acceleration E(V) = eps(V) (S - V^2 / a) + integral_0^V eps(u) 2 u / a du, a Volterra
        // equation of the second kind; differentiated: dE/dV = (S - V^2 / a) d eps / dV. Derived, not published.
        KneeCurve curve = new KneeCurve(shape, 60, 0.15, -0.03, 0.0005);
        double h = 1e-3;
        for (double v = 10; v < 250; v *= 1.3) {
            double slope = (error(curve, v + h) - error(curve, v - h)) / (2 * h);
            double expected = (STROKE_MM - v * v / ACCELERATION) * (curve.at(v + h) - curve.at(v - h)) / (2 * h);
            assertThat(slope).as("%s at %s mm/s", shape, v).isCloseTo(expected, within(1e-6));
        }
    }

    @ParameterizedTest
    @EnumSource(CurveShape.class)
    void sShapedMovesAgreeWithAPlainSumOverSmallTimeSteps(CurveShape shape) {
        KneeCurve curve = new KneeCurve(shape, 25, 0.06, 0.05, -0.0005);
        Drive drive = Drive.of(150, 600).withDeceleration(350).withJerk(4000);
        Motion motion = Motion.builder().move(120, drive).build();
        int steps = 400_000;
        double dt = motion.durationS() / steps;
        double sum = 0;
        for (int i = 0; i < steps; i++) {
            double v = motion.speedMmPerS((i + 0.5) * dt);
            sum += curve.at(v) * v * dt;
        }
        assertThat(error(curve, 120, drive)).isCloseTo(sum, within(1e-7));
    }

    @Test
    void triangularMoveHasNoPlateau() {
        // all travel on the ramps: 2 integral_0^P eps(u) u / a du, P = sqrt(a S); eps = k u
        double peak = Math.sqrt(ACCELERATION * 100);
        double expected = 2 * 1e-5 * Math.pow(peak, 3) / (3 * ACCELERATION);
        assertThat(error(u -> 1e-5 * u, 100, Drive.of(10_000, ACCELERATION))).isCloseTo(expected, within(1e-9));
    }
}
