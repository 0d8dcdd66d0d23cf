package slowproof.trial.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;
import slowproof.trial.curve.CurveDraws;
import slowproof.trial.curve.TestDraws;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.forecast.Forecast.Figures;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceSpec;

/** A line that goes back with a curve of its own for that direction, worked out by hand. */
class DirectionsByHandTest {
    private static final int DRAWS = 2000;

    /** 850 mm forward, 50 mm back, 100 mm forward: 900 mm net from three starts, two of them forward. */
    private static Line line() {
        return Line.of(
                "back and forth",
                PieceSpec.of(900, 3),
                List.of(
                        LineStep.RampTo.of(200, 400),
                        new LineStep.HoldRest(),
                        LineStep.RampTo.of(0, 400),
                        new LineStep.Reverse(50, 100, 400),
                        LineStep.RampTo.of(100, 400),
                        new LineStep.HoldMm(75),
                        LineStep.RampTo.of(0, 400)));
    }

    /** The same relative error at all speeds, spread as a normal variable; both directions get the same quantiles. */
    private static CurveDraws constant(double eps, double u, double startMm, double referenceU) {
        double[][] all = new double[DRAWS][];
        double[] start = new double[DRAWS];
        double[] shift = new double[DRAWS];
        for (int i = 0; i < DRAWS; i++) {
            double z = Distributions.normalQuantile((i + 0.5) / DRAWS);
            // every second quantile from the other end: a reference that has nothing to do with the curve
            shift[i] = referenceU * (i % 2 == 0 ? z : -z);
            double value = eps + u * z + shift[i];
            all[i] = new double[] {value, value};
            start[i] = startMm;
        }
        return TestDraws.of(new double[] {5, 400}, all, start, shift);
    }

    private static LineEvidence evidence(CurveDraws forward, CurveDraws back) {
        LineEvidence one = Evidence.of(forward, 0.05, 0.02, 1e9, 0);
        return new LineEvidence(
                one.material(),
                forward,
                new LineEvidence.Backward(back, 20, 300, one.fast()),
                one.hasCurve(),
                one.components(),
                one.startLossMm(),
                one.slowestMmPerS(),
                one.fastestMmPerS(),
                one.slowestAccelerationMmPerS2(),
                one.fastestAccelerationMmPerS2(),
                one.shortestMm(),
                one.longestMm(),
                one.fast(),
                one.readingStepMm(),
                one.fixedRatio(),
                one.latencyS(),
                one.stated(),
                one.decidable(),
                one.scaleError(),
                one.floorMmPerS());
    }

    private static Figures figures(LineEvidence evidence) {
        return Evidence.there(
                Forecasting.of(evidence, line(), new Settings(1, 2, false, 1)).figures());
    }

    @Test
    void eachDirectionErrsByItsOwnCurveAndStartLoss() {
        // +0.1 % of 950 mm less -0.2 % of 50 mm, two starts of -0.02 mm less one of +0.01 mm:
        // 0.95 + 0.1 - 0.04 - 0.01 = 1.00 mm
        Figures found = figures(evidence(constant(0.001, 0, -0.02, 0), constant(-0.002, 0, 0.01, 0)));
        assertThat(found.expectedErrorMm()).isCloseTo(1.0, within(1e-9));
        // the sensor cuts: 900 / (1 + 1/900) - 900
        assertThat(Evidence.there(found.deviationMm())).isCloseTo(-1 / (1 + 1 / 900.0), within(1e-9));
    }

    @Test
    void theCourseAlongThePieceEndsAtTheSameError() {
        LineEvidence evidence = evidence(constant(0.001, 0, -0.02, 0), constant(-0.002, 0, 0.01, 0));
        ErrorAlong along = ErrorAlong.of(
                Evidence.there(LineCurves.of(evidence)), line().motions().get(0).motion());
        assertThat(along.places().get(along.places().size() - 1).errorMm()).isCloseTo(1.0, within(1e-9));
    }

    @Test
    void theirUncertaintiesAreIndependentAndTheReferenceIsOne() {
        // curves: 1e-4 of 950 mm and 2e-3 of 50 mm, independent: sqrt(0.095^2 + 0.1^2) = 0.1379 mm; were they one,
        // 0.195
        // or 0.005 mm. The reference is common: 5e-5 of the net 900 mm = 0.045 mm
        Figures found = figures(evidence(constant(0, 1e-4, 0, 5e-5), constant(0, 2e-3, 0, 5e-5)));
        assertThat(uncertainty(found, Contribution.Source.CURVE)).isCloseTo(0.1379, within(0.003));
        assertThat(uncertainty(found, Contribution.Source.REFERENCE)).isCloseTo(0.045, within(0.0003));
    }

    @Test
    void onlyWhatBothDirectionsTriedIsCovered() {
        // the steps alike, but return passes from 20 mm/s on: each of three starts crosses 20^2/400 = 1 mm below it,
        // of which the trial's ramps of 100 mm/s2 crossed 20^2/100 = 4 mm
        CurveDraws same = constant(0, 1e-4, 0, 0);
        assertThat(evidence(same, same).slowestMmPerS(true)).isEqualTo(20);
        assertThat(evidence(same, same).slowestMmPerS(false)).isEqualTo(5);
        assertThat(evidence(same, same).fastestMmPerS(true)).isEqualTo(300);
        assertThat(figures(evidence(same, same)).coverage().belowMm()).isZero();
    }

    private static double uncertainty(Figures figures, Contribution.Source source) {
        return figures.contributions().stream()
                .filter(c -> c.source() == source)
                .mapToDouble(Contribution::standardUncertaintyMm)
                .sum();
    }
}
