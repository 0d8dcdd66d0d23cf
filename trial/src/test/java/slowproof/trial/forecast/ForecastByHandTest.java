package slowproof.trial.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.forecast.Forecast.Figures;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceSpec;

/** Forecasts whose figures were worked out by hand. */
class ForecastByHandTest {
    private static final Settings QUICK = new Settings(1, 2, false, 1);

    private static Figures figures(LineEvidence evidence, Line line) {
        return Evidence.there(Forecasting.of(evidence, line, QUICK).figures());
    }

    private static Line trapezoid(double length, double tolerance, double speed, double acceleration) {
        return Line.of(
                "t",
                PieceSpec.of(length, tolerance),
                List.of(
                        LineStep.RampTo.of(speed, acceleration),
                        new LineStep.HoldRest(),
                        LineStep.RampTo.of(0, acceleration)));
    }

    @Test
    void constantErrorOnAnyMotionIsErrorTimesLength() {
        // +0.1 % on 2000 mm: the sensor reads 2 mm too much, so the piece is 2000 / 1.001 long: 1.998 mm short
        Figures found = figures(Evidence.exact(10, 0.001, 400, 0.001, 0.05, 0.02), trapezoid(2000, 3, 300, 500));
        assertThat(found.expectedErrorMm()).isCloseTo(2.0, within(1e-9));
        assertThat(Evidence.there(found.deviationMm())).isCloseTo(2000 / 1.001 - 2000, within(1e-9));
        assertThat(Evidence.there(found.deviationMm())).isNegative();
    }

    @Test
    void trapezoidIntegralOfAStraightLineInLnV() {
        // eps(v) = e0 ln(400/v)/ln(40), e0 = -2 % at 10 mm/s, held at -2 % below. Plateau 400: no error there.
        // Ramps: density v/a each way, so E = 2/a e0/ln 40 [integral 10..400 of v ln(400/v) dv] + e0 10^2/a;
        // integral = [v^2/2 ln(400/v) + v^2/4] from 10 to 400 = 40000 - (50 ln 40 + 25) = 39790.556 mm2/s2
        double integral = 400.0 * 400 / 4 - (50 * Math.log(40) + 25);
        double byHand = -0.02 * (2 / 500.0 * integral / Math.log(40) + 100 / 500.0);
        assertThat(byHand).isCloseTo(-0.86694, within(1e-4));
        Figures found = figures(Evidence.exact(10, -0.02, 400, 0, 0.05, 0.02), trapezoid(2000, 3, 400, 500));
        assertThat(found.expectedErrorMm()).isCloseTo(byHand, within(1e-9));
    }

    @Test
    void spreadAddsStartsTravelAndReadings() {
        // 0.05^2 + 0.02^2 * 2 + 0.1^2 / 6 = 0.0025 + 0.0008 + 0.0016667 mm2
        LineEvidence evidence = Evidence.of(
                Evidence.there(Evidence.exact(10, 0, 400, 0, 0.05, 0.02).draws()), 0.05, 0.02, 1e9, 0.1);
        Figures found = figures(evidence, trapezoid(2000, 3, 300, 500));
        assertThat(found.spreadMm()).isCloseTo(Math.sqrt(0.0049666667), within(1e-8));
        assertThat(found.meanUncertaintyMm()).isCloseTo(0, within(1e-12));
        assertThat(found.contributions().stream()
                        .mapToDouble(Contribution::share)
                        .sum())
                .isCloseTo(1, within(1e-12));
    }

    @Test
    void shareOutsideOfANormalSpread() {
        // no readings to speak of: sd 0.05 (one start), tolerance 0.1 mm = 2 sd: 4.55 % outside
        LineEvidence evidence = Evidence.of(
                Evidence.there(Evidence.exact(10, 0, 400, 0, 0.05, 1e-9).draws()), 0.05, 1e-9, 1e9, 0);
        Figures found = figures(evidence, trapezoid(2000, 0.1, 300, 500));
        assertThat(Evidence.there(found.outside())).isCloseTo(2 * Distributions.normalCdf(-2), within(1e-4));
        // promised for 95 %: 1.96 sd, and the 95 % bound of a scatter of 10000 degrees of freedom, 1.2 % more
        assertThat(found.promises().toleranceMm()).isCloseTo(1.96 * 0.05 * 1.0117, within(1e-4));
        assertThat(found.decision()).isEqualTo(Answer.CONFORMS);
    }

    @Test
    void lateCutsOnTheFlyLengthenOnlyWhenTheLineSpeedsUp() {
        Line line = new Line(
                "fly",
                null,
                List.of(PieceSpec.of(500, 1)),
                true,
                2,
                List.of(LineStep.RampTo.of(200, 500), new LineStep.HoldRest(), LineStep.RampTo.of(0, 500)),
                null,
                0.001,
                0.01,
                null,
                null,
                "",
                0.95,
                0.95);
        Figures found = figures(Evidence.exact(10, 0, 400, 0, 1e-6, 1e-6), line);
        // first piece ends at 200 mm/s (+2 mm), second starts there and ends at rest (-2 mm); each cut 1 ms * 200 mm/s
        assertThat(Evidence.there(found.deviationMm())).isCloseTo(0, within(1e-9));
        assertThat(found.contributions().get(0).source()).isEqualTo(Contribution.Source.TRIGGER);
        assertThat(found.contributions().get(0).standardUncertaintyMm()).isCloseTo(0.2, within(1e-9));
    }

    @Test
    void creepBelowTheSlowestTestedSpeedIsNotCovered() {
        Line line = Line.of(
                "creep",
                PieceSpec.of(1000, 1),
                List.of(
                        LineStep.RampTo.of(300, 500),
                        new LineStep.HoldRest(),
                        LineStep.RampTo.of(5, 500),
                        new LineStep.HoldMm(40),
                        LineStep.RampTo.of(0, 500)));
        Figures found = figures(Evidence.exact(10, -0.01, 300, 0, 0.05, 0.02), line);
        assertThat(found.covered()).isFalse();
        // below 10 mm/s: ramps 10^2/500 = 0.2 mm and 40 mm of creep; the trial's own softest ramps (100 mm/s2) cross 1
        // mm
        assertThat(found.coverage().uncoveredMm()).isCloseTo(40.2 - 1, within(1e-6));
        assertThat(found.coverage().lossMm()).isCloseTo(39.2, within(1e-6));
        assertThat(found.coverage().gainMm()).isZero();
        assertThat(found.coverage().gaps().get(0).lack()).isEqualTo(Coverage.Lack.SLOWER);
        assertThat(found.coverage().gaps().get(0).add()).isEqualTo(5);
        assertThat(found.meanInterval().low()).isLessThan(found.expectedErrorMm() - 39);
        assertThat(found.decision()).isNotEqualTo(Answer.CONFORMS);
    }

    @Test
    void whatIsNotCoveredCanAlsoBringPiecesInside() {
        Line line = Line.of(
                "fast",
                PieceSpec.of(1000, 1),
                List.of(LineStep.RampTo.of(600, 500), new LineStep.HoldRest(), LineStep.RampTo.of(0, 500)));
        // 1 % over-reading where tested makes pieces 10 mm short; a loss of as much in the fast part would hide it
        Figures found = figures(Evidence.exact(10, 0.01, 300, 0, 0.05, 0.02), line);
        assertThat(found.covered()).isFalse();
        assertThat(found.meanInterval().low()).isLessThan(-1);
        assertThat(found.meanInterval().high()).isGreaterThan(1);
        assertThat(found.decision()).isEqualTo(Answer.UNDECIDED);
        assertThat(found.outsideInterval().low()).isLessThan(0.01);
        assertThat(found.outsideInterval().high()).isGreaterThan(0.99);
    }

    @Test
    void noCreepHelpsWhereTheRampsAloneAreTooMuch() {
        Line line = Line.of(
                "creep",
                PieceSpec.of(1000, 0.1),
                List.of(
                        LineStep.RampTo.of(300, 500),
                        new LineStep.HoldRest(),
                        LineStep.RampTo.of(40, 500),
                        new LineStep.HoldMm(40),
                        LineStep.RampTo.of(0, 500)));
        Figures found = figures(Evidence.exact(10, -0.05, 300, 0, 0.01, 0.01), line);
        assertThat(found.promises().slowestCreepMmPerS()).isNull();
        assertThat(found.promises().creepReason()).isEqualTo(Promises.Reason.NO_VALUE_HELPS);
        assertThat(found.decision()).isEqualTo(Answer.DOES_NOT_CONFORM);
    }

    @Test
    void slowestCreepIsWhereTheToleranceIsUsedUp() {
        Line line = Line.of(
                "creep",
                PieceSpec.of(2000, 2),
                List.of(
                        LineStep.RampTo.of(300, 500),
                        new LineStep.HoldRest(),
                        LineStep.RampTo.of(80, 500),
                        new LineStep.HoldMm(100),
                        LineStep.RampTo.of(0, 500)));
        LineEvidence evidence = Evidence.exact(10, -0.05, 300, 0, 0.02, 0.02);
        double creep = Evidence.there(figures(evidence, line).promises().slowestCreepMmPerS());
        assertThat(creep).isBetween(80.0, 300.0);
        Line at = line.withCycle(CycleChanges.withCreep(line.cycle(), creep));
        Line slower = line.withCycle(CycleChanges.withCreep(line.cycle(), 0.99 * creep));
        assertThat(figures(evidence, at).promises().toleranceMm()).isLessThanOrEqualTo(2.001);
        assertThat(figures(evidence, slower).promises().toleranceMm()).isGreaterThan(2);
    }
}
