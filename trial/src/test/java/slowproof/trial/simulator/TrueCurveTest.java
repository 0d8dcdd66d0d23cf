package slowproof.trial.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class TrueCurveTest {
    @ParameterizedTest
    @EnumSource(
            value = CurveShape.class,
            names = {"LOGISTIC", "HILL", "GOMPERTZ", "STRETCHED_EXPONENTIAL"})
    void singleStepShapesAreHalfAtTheKneeWithTheSlopeOfTheirWidth(CurveShape shape) {
        double knee = 40;
        double width = 6;
        double step = 1e-4;
        double slope =
                (shape.remaining(knee + step, knee, width) - shape.remaining(knee - step, knee, width)) / (2 * step);
        assertThat(shape.remaining(knee, knee, width)).isCloseTo(0.5, within(1e-12));
        assertThat(slope).isCloseTo(-1 / (4 * width), within(1e-8));
    }

    @ParameterizedTest
    @EnumSource(CurveShape.class)
    void everyShapeFallsFromOneToZeroWithoutARise(CurveShape shape) {
        double before = shape.remaining(0, 40, 6);
        assertThat(before).isBetween(0.99, 1.0);
        for (double v = 0.5; v <= 800; v += 0.5) {
            double now = shape.remaining(v, 40, 6);
            assertThat(now).as("%s at %s mm/s", shape, v).isBetween(0.0, before);
            before = now;
        }
        assertThat(before).isLessThan(1e-8);
    }

    @Test
    void twoStepCurveHasTwoDrops() {
        CurveShape shape = CurveShape.TWO_STEP;
        assertThat(shape.remaining(75, 100, 5)).isCloseTo(0.4, within(0.01));
        assertThat(shape.remaining(20, 100, 5)).isCloseTo(1.0, within(0.01));
    }

    @Test
    void floorOfALogisticCurveAgreesWithItsInverse() {
        // |scale + depth f| = limit  =>  f = (limit - scale) / depth, v = knee + width ln(1 / f - 1)
        KneeCurve curve = new KneeCurve(CurveShape.LOGISTIC, 60, 0.1, 0.03, 0.0004);
        double f = (0.0015 - 0.0004) / 0.03;
        assertThat(curve.floorMmPerS(0.0015, 5, 400)).isCloseTo(60 + 6 * Math.log(1 / f - 1), within(1e-8));
    }

    @Test
    void floorOfAnUnderReadingHillCurveAgreesWithItsInverse() {
        KneeCurve curve = new KneeCurve(CurveShape.HILL, 60, 0.2, -0.03, 0.0004);
        double f = (0.0015 + 0.0004) / 0.03;
        assertThat(curve.floorMmPerS(0.0015, 5, 400)).isCloseTo(60 * Math.pow(1 / f - 1, 0.2), within(1e-8));
    }

    @Test
    void floorIsZeroWhereTheLimitHoldsThroughoutAndInfiniteWhereItNeverDoes() {
        assertThat(((TrueCurve) v -> 0.001).floorMmPerS(0.0015, 5, 400)).isZero();
        assertThat(((TrueCurve) v -> 0.002).floorMmPerS(0.0015, 5, 400)).isInfinite();
    }

    @Test
    void floorLiesAboveTheFastestFailureEvenIfSlowerSpeedsHold() {
        TrueCurve hump = v -> v > 50 && v < 60 ? 0.01 : 0;
        assertThat(hump.floorMmPerS(0.0015, 5, 400)).isCloseTo(60, within(1e-6));
    }

    @Test
    void badArgumentsAreRefused() {
        TrueCurve curve = v -> 0;
        assertThatThrownBy(() -> curve.floorMmPerS(Double.NaN, 5, 400)).hasMessageContaining("limit");
        assertThatThrownBy(() -> curve.floorMmPerS(0.001, 400, 5)).hasMessageContaining("range is empty");
        assertThatThrownBy(() -> new KneeCurve(CurveShape.HILL, 0, 0.2, 0.01, 0))
                .hasMessageContaining("knee");
    }
}
