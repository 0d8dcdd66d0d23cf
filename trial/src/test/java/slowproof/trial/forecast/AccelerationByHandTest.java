package slowproof.trial.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceSpec;

/** The smallest acceleration, worked out by hand for a curve that is straight in ln v: -2 % at 10 mm/s, nothing at 400. */
class AccelerationByHandTest {
    private static final double CREEP_MM = 60;

    private static final LineEvidence EVIDENCE = Evidence.exact(10, -0.02, 400, 0, 0.05, 1e-9);

    // steps from rest to rest over 400 mm/s: 2/a e0/ln 40 [v^2/2 ln(400/v) + v^2/4] from 10 to 400 + e0 10^2/a
    private static final double RAMPS_MM2_PER_S2 =
            -0.02 * (2 * (400.0 * 400 / 4 - (50 * Math.log(40) + 25)) / Math.log(40) + 100);

    // at 20 mm/s: e0 ln(400/20)/ln 40
    private static final double CREEP_LOSS_MM = -0.02 * Math.log(20) / Math.log(40) * CREEP_MM;

    /** Returns the half tolerance that holds 95 % of the pieces with these ramps: one-sided, since the mean is far off. */
    private static double toleranceAt(double acceleration) {
        double error = RAMPS_MM2_PER_S2 / acceleration + CREEP_LOSS_MM;
        return -error / (1 + error / 2000) + 1.644854 * 0.05;
    }

    private static double smallest(LineStep fast, LineStep creep) {
        List<LineStep> steps = List.of(
                LineStep.RampTo.of(400, 500), fast, LineStep.RampTo.of(20, 500), creep, LineStep.RampTo.of(0, 500));
        Line line = Line.of("ramps", PieceSpec.of(2000, toleranceAt(400)), steps);
        return Evidence.there(Evidence.there(Forecasting.of(EVIDENCE, line, new Settings(1, 2, false, 1))
                        .figures())
                .promises()
                .smallestAccelerationMmPerS2());
    }

    @Test
    void rampsGiveTheirWayToTheFastPart() {
        assertThat(smallest(new LineStep.HoldRest(), new LineStep.HoldMm(CREEP_MM)))
                .isCloseTo(400, within(3.0));
    }

    @Test
    void creepStaysAsLongAsItIsWhereItWasWrittenAsTheRest() {
        // ramps of 400 mm/s up, 400 to 20 and 20 to 0 take 320 mm
        assertThat(smallest(new LineStep.HoldMm(2000 - 320 - CREEP_MM), new LineStep.HoldRest()))
                .isCloseTo(400, within(3.0));
    }

    @Test
    void aCycleWrittenWithoutRestCanBeDrivenDifferentlyToo() {
        assertThat(smallest(new LineStep.HoldMm(2000 - 320 - CREEP_MM), new LineStep.HoldMm(CREEP_MM)))
                .isCloseTo(400, within(3.0));
    }
}
