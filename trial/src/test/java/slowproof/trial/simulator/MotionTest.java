package slowproof.trial.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class MotionTest {
    private static Motion single(double strokeMm, Drive drive) {
        return Motion.builder().move(strokeMm, drive).build();
    }

    @Test
    void trapezoidTakesStrokeOverSpeedPlusSpeedOverAcceleration() {
        Motion motion = single(900, Drive.of(200, 500));
        assertThat(motion.durationS()).isCloseTo(900.0 / 200 + 200.0 / 500, within(1e-12));
        assertThat(motion.positionMm(motion.durationS())).isEqualTo(900);
        assertThat(motion.positionMm(0.4)).isCloseTo(200.0 * 200 / (2 * 500), within(1e-12));
        assertThat(motion.speedMmPerS(2)).isEqualTo(200);
        assertThat(motion.speedMmPerS(motion.durationS())).isZero();
    }

    @Test
    void returnMoveMirrorsTheForwardMove() {
        Motion forward = single(900, Drive.of(200, 500));
        Motion back = single(-900, Drive.of(200, 500));
        for (double t = 0; t <= 5; t += 0.01) {
            assertThat(back.positionMm(t)).isEqualTo(-forward.positionMm(t));
            assertThat(back.speedMmPerS(t)).isEqualTo(-forward.speedMmPerS(t), within(0.0));
        }
    }

    @Test
    void shortMoveIsTriangularWithThePeakOfUnequalRamps() {
        // peak of a triangular move: sqrt(2 S a d / (a + d))
        Drive drive = Drive.of(400, 600).withDeceleration(300);
        double peak = Math.sqrt(2 * 50.0 * 600 * 300 / 900);
        assertThat(drive.peakMmPerS(50)).isCloseTo(peak, within(1e-12));
        Motion motion = single(50, drive);
        assertThat(motion.durationS()).isCloseTo(peak / 600 + peak / 300, within(1e-9));
        assertThat(motion.peakMmPerS(motion.moves().get(0))).isCloseTo(peak, within(1e-12));
    }

    @Test
    void positionIsTheIntegralOfSpeedForEveryKindOfMove() {
        List<Drive> drives = List.of(
                Drive.of(200, 500),
                Drive.of(200, 500).withDeceleration(250),
                Drive.of(200, 500).withJerk(2000),
                Drive.of(200, 500).withDeceleration(900).withJerk(1500),
                Drive.of(2000, 500).withJerk(900));
        for (Drive drive : drives) {
            Motion motion = Motion.builder()
                    .dwell(0.3)
                    .move(700, drive)
                    .dwell(0.2)
                    .move(-300, drive)
                    .build();
            double step = 1e-4;
            double position = 0;
            for (double t = 0; t < motion.durationS(); t += step) {
                position += motion.speedMmPerS(t + 0.5 * step) * step;
                assertThat(motion.positionMm(t + step))
                        .as("%s at %s s", drive, t)
                        .isCloseTo(position, within(2e-3));
            }
            assertThat(motion.positionMm(motion.durationS())).isEqualTo(400);
        }
    }

    @Test
    void sShapedRampKeepsAccelerationAndJerkWithinBounds() {
        Drive drive = Drive.of(200, 500).withJerk(2000);
        Motion motion = single(900, drive);
        // reaches 500 mm/s2, since 200 * 2000 > 500^2: ramp = V / a + a / j
        assertThat(motion.durationS()).isCloseTo(900.0 / 200 + 200.0 / 500 + 500.0 / 2000, within(1e-9));
        double step = 1e-4;
        double lastAcceleration = 0;
        for (double t = step; t < motion.durationS(); t += step) {
            double acceleration = (motion.speedMmPerS(t) - motion.speedMmPerS(t - step)) / step;
            assertThat(Math.abs(acceleration)).isLessThan(500 + 1e-6);
            assertThat(Math.abs(acceleration - lastAcceleration) / step).isLessThan(2000 * 1.001);
            lastAcceleration = acceleration;
        }
    }

    @Test
    void shortSShapedMoveNeitherReachesSpeedNorOvershoots() {
        Drive drive = Drive.of(400, 500).withJerk(2000);
        Motion motion = single(10, drive);
        double peak = drive.peakMmPerS(10);
        // below a^2 / j = 125 mm/s each ramp takes 2 sqrt(V / j), so S = 2 V sqrt(V / j)
        assertThat(2 * peak * Math.sqrt(peak / 2000)).isCloseTo(10, within(1e-9));
        assertThat(motion.positionMm(motion.durationS())).isEqualTo(10);
        for (double t = 0; t < motion.durationS(); t += 1e-3) {
            assertThat(motion.speedMmPerS(t)).isBetween(0.0, peak + 1e-9);
        }
    }

    @Test
    void movesAreFoundFromRestToRest() {
        Motion motion = Motion.builder()
                .dwell(1)
                .move(100, Drive.of(50, 500))
                .dwell(2)
                .rampTo(80, 400)
                .cruise(100)
                .rampTo(-40, 400)
                .cruiseFor(1)
                .rampTo(0, 400)
                .build();
        assertThat(motion.moves()).hasSize(3);
        Motion.Move second = motion.moves().get(1);
        Motion.Move third = motion.moves().get(2);
        assertThat(second.startS()).isCloseTo(1 + 2.1 + 2, within(1e-12));
        assertThat(second.travelMm()).isCloseTo(100 + 2 * 80.0 * 80 / 800, within(1e-9));
        // a reversal on the fly passes through rest: one move ends, the next begins
        assertThat(third.startS()).isEqualTo(second.endS());
        assertThat(third.travelMm()).isCloseTo(-(40 + 2 * 40.0 * 40 / 800), within(1e-9));
    }

    @Test
    void motionThatEndsUnderWayHasItsLastMoveCutThere() {
        Motion motion = Motion.builder().rampTo(100, 200).cruise(50).build();
        assertThat(motion.moves()).hasSize(1);
        assertThat(motion.moves().get(0).travelMm()).isCloseTo(25 + 50, within(1e-12));
    }

    @Test
    void speedIntegratesToTheTravelAndTimeToTheDuration() {
        Motion motion = single(900, Drive.of(300, 400).withJerk(3000));
        assertThat(motion.integrate(v -> v, 0, motion.durationS())).isCloseTo(900, within(1e-9));
        assertThat(motion.integrate(v -> 1, 0, 1.234)).isCloseTo(1.234, within(1e-12));
        assertThat(motion.integrate(v -> v, 0.2, 0.7))
                .isCloseTo(motion.positionMm(0.7) - motion.positionMm(0.2), within(1e-9));
        assertThat(motion.integrate(v -> 1, -5, motion.durationS() + 5)).isCloseTo(motion.durationS(), within(1e-12));
    }

    @Test
    void contradictionsAreRefused() {
        assertThatThrownBy(() -> Motion.builder().rampTo(10, 100).dwell(1)).hasMessageContaining("needs rest");
        assertThatThrownBy(() -> Motion.builder().cruise(1)).hasMessageContaining("at rest");
        assertThatThrownBy(() -> single(Double.NaN, Drive.of(1, 1))).hasMessageContaining("stroke");
        assertThatThrownBy(() -> Drive.of(-1, 100)).hasMessageContaining("speed");
    }
}
