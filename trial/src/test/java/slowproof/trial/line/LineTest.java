package slowproof.trial.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import slowproof.trial.line.LineNotPossibleException.Why;

class LineTest {
    private static final List<LineStep> TRAPEZOID =
            List.of(LineStep.RampTo.of(400, 500), new LineStep.HoldRest(), LineStep.RampTo.of(0, 500));

    private static PieceMotion only(Line line) {
        List<Line.WeightedPiece> motions = line.motions();
        assertThat(motions).hasSize(1);
        return motions.get(0).motion();
    }

    @Test
    void trapezoidSpendsVSquaredOverABelowASpeed() {
        PieceMotion motion = only(Line.of("t", PieceSpec.of(1000, 1), TRAPEZOID));
        assertThat(motion.lengthMm()).isCloseTo(1000, within(1e-9));
        // v^2 / a, ramp up and ramp down together: 100^2 / 500
        assertThat(motion.belowMm(100)).isCloseTo(20, within(1e-9));
        assertThat(motion.starts()).isEqualTo(1);
        assertThat(motion.standstillS()).isZero();
    }

    @Test
    void severalPiecesOfACycleAddUpAndOnlyTheFirstStarts() {
        Line line = new Line(
                "t",
                null,
                List.of(PieceSpec.of(250, 1)),
                true,
                4,
                TRAPEZOID,
                null,
                0,
                null,
                null,
                null,
                "",
                0.95,
                0.95);
        List<Line.WeightedPiece> pieces = line.motions();
        assertThat(pieces).hasSize(4);
        assertThat(pieces.stream().mapToInt(p -> p.motion().starts()).toArray()).containsExactly(1, 0, 0, 0);
        pieces.forEach(p -> assertThat(p.motion().lengthMm()).isCloseTo(250, within(1e-6)));
        assertThat(pieces.get(1).motion().firstSpeedMmPerS()).isEqualTo(400);
    }

    @Test
    void sShapedRampKeepsTheTravelAndRunsLongerSlow() {
        List<LineStep> shaped = List.of(
                new LineStep.RampTo(400, 500, 2000.0), new LineStep.HoldRest(), new LineStep.RampTo(0, 500, 2000.0));
        PieceMotion motion = only(Line.of("s", PieceSpec.of(1500, 1), shaped));
        assertThat(motion.lengthMm()).isCloseTo(1500, within(1e-6));
        // jerk phase from rest: v = j t^2 / 2, x = j t^3 / 6, so below 50 mm/s: t = sqrt(0.05) s, twice x
        double t = Math.sqrt(2 * 50 / 2000.0);
        assertThat(motion.belowMm(50)).isCloseTo(2 * 2000 * t * t * t / 6, within(0.01));
    }

    @Test
    void reversingCountsAStartAgainstAndTravelTwice() {
        List<LineStep> steps = List.of(
                LineStep.RampTo.of(200, 400),
                new LineStep.HoldRest(),
                LineStep.RampTo.of(0, 400),
                new LineStep.Reverse(50, 100, 400),
                LineStep.RampTo.of(100, 400),
                new LineStep.HoldMm(25),
                LineStep.RampTo.of(0, 400));
        PieceMotion motion = only(Line.of("r", PieceSpec.of(800, 1), steps));
        assertThat(motion.lengthMm()).isCloseTo(800, within(1e-6));
        assertThat(motion.pathMm()).isCloseTo(900, within(1e-6));
        assertThat(motion.starts()).isEqualTo(3);
        assertThat(motion.startsForward() - motion.startsBackward()).isEqualTo(1);
    }

    @Test
    void repeatedStopsAreStarts() {
        List<LineStep> steps = List.of(
                new LineStep.Repeat(
                        3,
                        List.of(
                                LineStep.RampTo.of(100, 500),
                                new LineStep.HoldMm(50),
                                LineStep.RampTo.of(0, 500),
                                new LineStep.Stop(2))),
                LineStep.RampTo.of(300, 500),
                new LineStep.HoldRest(),
                LineStep.RampTo.of(0, 500));
        PieceMotion motion = only(Line.of("stops", PieceSpec.of(1000, 1), steps));
        assertThat(motion.starts()).isEqualTo(4);
        assertThat(motion.standstillS()).isCloseTo(6, within(1e-9));
    }

    @Test
    void cycleLongerThanItsPieceIsRefusedWithBothLengths() {
        assertThatThrownBy(() -> Line.of("t", PieceSpec.of(300, 1), TRAPEZOID).motions())
                .isInstanceOfSatisfying(LineNotPossibleException.class, e -> {
                    assertThat(e.why()).isEqualTo(Why.LINE_LONGER_THAN_PIECE);
                    assertThat(e.figures()).containsExactly(320.0, 300.0);
                });
    }

    @Test
    void stoppingInMotionNamesTheStep() {
        List<LineStep> steps = List.of(LineStep.RampTo.of(100, 500), new LineStep.Stop(1));
        assertThatThrownBy(() -> Line.of("t", PieceSpec.of(300, 1), steps).motions())
                .isInstanceOfSatisfying(LineNotPossibleException.class, e -> {
                    assertThat(e.why()).isEqualTo(Why.LINE_STOP_IN_MOTION);
                    assertThat(e.step()).isEqualTo(1);
                });
    }

    @Test
    void noisyLogKeepsItsDistanceAndMakesNoStartsOfNoise() {
        SplittableRandom random = new SplittableRandom(7);
        LineProfile clean = Line.of(
                        "t",
                        PieceSpec.of(1000, 1),
                        List.of(
                                new LineStep.Stop(1),
                                LineStep.RampTo.of(400, 500),
                                new LineStep.HoldRest(),
                                LineStep.RampTo.of(35, 500),
                                new LineStep.HoldMm(100),
                                LineStep.RampTo.of(0, 500),
                                new LineStep.Stop(2)))
                .profile(PieceSpec.of(1000, 1));
        int n = (int) (clean.durationS() / 0.005) + 1;
        double[] time = new double[n];
        double[] speed = new double[n];
        double[] noisy = new double[n];
        int at = 0;
        for (int i = 0; i < n; i++) {
            time[i] = 0.005 * i;
            while (at + 2 < clean.size() && clean.timeS(at + 1) <= time[i]) {
                at++;
            }
            double share = (time[i] - clean.timeS(at)) / (clean.timeS(at + 1) - clean.timeS(at));
            speed[i] = clean.speedMmPerS(at) + Math.min(1, share) * (clean.speedMmPerS(at + 1) - clean.speedMmPerS(at));
            noisy[i] = speed[i] + 3 * random.nextGaussian();
        }
        SpeedLog.Smoothed found = SpeedLog.smoothed(time, noisy);
        LineProfile smoothed = found.profile();
        assertThat(found.noiseMmPerS()).isCloseTo(3, within(0.3));
        // at most 0.1 s to either side
        assertThat(found.windowS()).isBetween(0.005, 0.2 + 1e-9);
        assertThat(found.restBelowMmPerS()).isPositive();
        assertThat(found.factor()).isCloseTo(1, within(0.01));
        assertThat(smoothed.netTravelMm()).isCloseTo(LineProfile.of(time, noisy).netTravelMm(), within(1e-6));
        PieceMotion piece = smoothed.cut(990).get(0);
        assertThat(piece.starts()).isEqualTo(1);
        PieceMotion exact = LineProfile.of(time, speed).cut(990).get(0);
        assertThat(piece.belowMm(30)).isCloseTo(exact.belowMm(30), within(1.0));
        assertThat(piece.belowMm(50)).isCloseTo(exact.belowMm(50), within(3.0));
    }

    @Test
    void aCycleThatJustFillsItsPieceCanBeWrittenAnew() {
        // 2 x 400^2 / (2 x 500) = 320 mm of ramps, 35^2 / 500 less at the creep that ends it; too long by a rounding
        double rest = 2500 - 320 + 1e-10;
        List<LineStep> steps = List.of(
                LineStep.RampTo.of(400, 500),
                new LineStep.HoldMm(rest),
                LineStep.RampTo.of(35, 500),
                new LineStep.HoldRest(),
                LineStep.RampTo.of(0, 500));
        assertThat(CycleMotion.restMm(steps, 2500)).isNegative();
        List<LineStep> anew = RestPlace.atFastest(steps, 2500);
        assertThat(anew.get(1)).isInstanceOf(LineStep.HoldRest.class);
        assertThat(only(Line.of("full", PieceSpec.of(2500, 1), anew)).lengthMm())
                .isCloseTo(2500, within(1e-6));
    }
}
