package slowproof.trial.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceSpec;

/** The curve of promises passes through the promises themselves, and few speeds show it. */
class PromiseCurveTest {
    private static Line line(double creep) {
        return Line.of(
                "creep",
                PieceSpec.of(2000, 2),
                List.of(
                        LineStep.RampTo.of(300, 500),
                        new LineStep.HoldRest(),
                        LineStep.RampTo.of(creep, 500),
                        new LineStep.HoldMm(100),
                        LineStep.RampTo.of(0, 500)));
    }

    private static double promised(LineEvidence evidence, double creep) {
        return Evidence.there(Forecasting.answer(evidence, line(creep), new Settings(1, 2, false, 1))
                        .figures())
                .promises()
                .toleranceMm();
    }

    @Test
    void theCurvePassesThroughThePromiseOfTheLineAsItIs() {
        LineEvidence evidence = Evidence.random(new SplittableRandom(2));
        List<PromiseCurve.Point> points = PromiseCurve.of(evidence, line(50), 1);
        PromiseCurve.Point now = points.stream()
                .filter(point -> Math.abs(point.creepMmPerS() - 50) < 1e-6)
                .findFirst()
                .orElseThrow();
        assertThat(now.toleranceMm()).isCloseTo(promised(evidence, 50), within(1e-6));
        assertThat(points.get(0).creepMmPerS()).isCloseTo(8, within(1e-9));
        assertThat(points.get(points.size() - 1).creepMmPerS()).isCloseTo(400, within(1e-9));
    }

    @Test
    void fewSpeedsShowItWithinTwoHundredths() {
        for (int seed = 1; seed <= 4; seed++) {
            LineEvidence evidence = Evidence.random(new SplittableRandom(seed));
            List<PromiseCurve.Point> points = PromiseCurve.of(evidence, line(50), 1);
            assertThat(points.size()).isBetween(9, PromiseCurve.MOST);
            double low = points.stream()
                    .mapToDouble(PromiseCurve.Point::toleranceMm)
                    .min()
                    .orElseThrow();
            double high = points.stream()
                    .mapToDouble(PromiseCurve.Point::toleranceMm)
                    .max()
                    .orElseThrow();
            for (int i = 0; i + 1 < points.size(); i += 2) {
                PromiseCurve.Point a = points.get(i);
                PromiseCurve.Point b = points.get(i + 1);
                double middle = Math.sqrt(a.creepMmPerS() * b.creepMmPerS());
                assertThat(0.5 * (a.toleranceMm() + b.toleranceMm()))
                        .as("seed %d at %s mm/s", seed, middle)
                        .isCloseTo(promised(evidence, middle), within(0.02 * (high - low)));
            }
        }
    }

    @Test
    void aCreepSlowerThanTestedIsShownAndItsCoverEndsAtTheSlowestTestedSpeed() {
        LineEvidence evidence = Evidence.exact(10, -0.01, 300, 0, 0.05, 0.02);
        List<PromiseCurve.Point> points = PromiseCurve.of(evidence, line(5), 1);
        assertThat(points.get(0).creepMmPerS()).isCloseTo(5, within(1e-9));
        assertThat(points.get(0).covered()).isFalse();
        double begins = points.stream()
                .filter(PromiseCurve.Point::covered)
                .mapToDouble(PromiseCurve.Point::creepMmPerS)
                .min()
                .orElseThrow();
        assertThat(begins).isCloseTo(10, within(1e-6));
        double ends = points.stream()
                .filter(point -> !point.covered())
                .mapToDouble(PromiseCurve.Point::creepMmPerS)
                .max()
                .orElseThrow();
        // ln 60 / 256 wide at most, and a start may halve unevenly
        assertThat(ends).isBetween(10 * Math.exp(-1.5 * Math.log(60) / 256), 10.0);
    }

    @Test
    void aLineWithoutCreepHasNoCurve() {
        Line plain = Line.of(
                "plain",
                PieceSpec.of(2000, 2),
                List.of(LineStep.RampTo.of(300, 500), new LineStep.HoldRest(), LineStep.RampTo.of(0, 500)));
        assertThat(PromiseCurve.of(Evidence.exact(10, 0, 400, 0, 0.05, 0.02), plain, 1))
                .isEmpty();
    }
}
