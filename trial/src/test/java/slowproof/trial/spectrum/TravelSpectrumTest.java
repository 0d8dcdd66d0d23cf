package slowproof.trial.spectrum;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.Collections;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class TravelSpectrumTest {
    private static final double[] KNOTS = {10, 20, 40, 80, 160};

    @Test
    void trapezoidSpendsSpeedSquaredOverAccelerationInItsRamps() {
        TravelSpectrum move = TravelSpectrum.move(900, 200, 500);
        // v0^2/a: 50^2/500 = 5 mm, 200^2/500 = 80 mm
        assertThat(move.distanceBelowMm(50)).isCloseTo(5, within(1e-12));
        assertThat(move.distanceBelowMm(200)).isCloseTo(80, within(1e-12));
        assertThat(move.distanceFromMm(200)).isCloseTo(820, within(1e-12));
        assertThat(move.totalMm()).isCloseTo(900, within(1e-12));
        assertThat(move.peakMmPerS()).isEqualTo(200);
    }

    @Test
    void unequalRampsAddTheirHalves() {
        TravelSpectrum move = TravelSpectrum.move(900, 200, 400, 1000);
        // v0^2/(2a) + v0^2/(2d) at 100 mm/s: 12.5 + 5 mm
        assertThat(move.distanceBelowMm(100)).isCloseTo(17.5, within(1e-12));
    }

    @Test
    void shortStrokeMakesATriangleThatPeaksBelowTheProgrammedSpeed() {
        TravelSpectrum move = TravelSpectrum.move(100, 500, 400, 1000);
        double peak = Math.sqrt(2 * 100 * 400.0 * 1000 / 1400);
        assertThat(move.peakMmPerS()).isCloseTo(peak, within(1e-9));
        assertThat(move.totalMm()).isCloseTo(100, within(1e-12));
        assertThat(move.distanceBelowMm(100)).isCloseTo(17.5, within(1e-9));
        assertThat(move.distanceFromMm(peak)).isCloseTo(0, within(1e-9));
    }

    @Test
    void strokeThatJustReachesTheSpeedHasNoHold() {
        TravelSpectrum move = TravelSpectrum.move(80, 200, 500);
        assertThat(move.distanceBelowMm(200)).isCloseTo(80, within(1e-12));
        assertThat(move.totalMm()).isCloseTo(80, within(1e-12));
    }

    @Test
    void knotsAddUpToTheTravelWithTheSlowPartApart() {
        SplittableRandom random = new SplittableRandom(11);
        for (int trial = 0; trial < 500; trial++) {
            double a = 100 + 900 * random.nextDouble();
            double d = 100 + 900 * random.nextDouble();
            double speed = 5 + 400 * random.nextDouble();
            double stroke = 20 + 1000 * random.nextDouble();
            KnotDistances on = TravelSpectrum.move(stroke, speed, a, d).onKnots(KNOTS);
            double peak = Math.min(speed, TravelSpectrum.trianglePeakMmPerS(stroke, a, d));
            double slow = Math.min(peak, 10);
            assertThat(on.totalMm()).as("trial %d", trial).isCloseTo(stroke, within(1e-9));
            if (peak > 10) {
                assertThat(on.belowMm()).isCloseTo(slow * slow * (1 / a + 1 / d) / 2, within(1e-9));
            } else {
                assertThat(on.belowMm()).isCloseTo(stroke, within(1e-9));
            }
            for (int k = 0; k < on.size(); k++) {
                assertThat(on.distanceMm(k)).as("trial %d knot %d", trial, k).isGreaterThanOrEqualTo(-1e-12);
            }
        }
    }

    @Test
    void knotDistanceIsTheIntegralOfItsHatFunction() {
        TravelSpectrum move = TravelSpectrum.move(900, 120, 450, 700).plus(TravelSpectrum.atSpeed(30, 55));
        KnotDistances on = move.onKnots(KNOTS);
        for (int k = 0; k < KNOTS.length; k++) {
            int own = k;
            double expected = 0;
            // fine time steps of the ramps, the hat evaluated at each, as an independent sum
            int steps = 400_000;
            for (int i = 0; i < steps; i++) {
                double v = 120 * (i + 0.5) / steps;
                expected += hat(own, v) * v * (120.0 / steps) * (1 / 450.0 + 1 / 700.0);
            }
            double hold = 900 - 120.0 * 120 / 2 * (1 / 450.0 + 1 / 700.0);
            expected += hat(own, 120) * hold + hat(own, 30) * 55;
            assertThat(on.distanceMm(k)).as("knot %d", k).isCloseTo(expected, within(1e-5));
        }
    }

    @Test
    void travelAboveTheFastestKnotIsCountedThereAndNamed() {
        KnotDistances on = TravelSpectrum.move(900, 200, 500).onKnots(KNOTS);
        assertThat(on.aboveMm()).isCloseTo(900 - 160.0 * 160 / 500, within(1e-9));
        assertThat(on.distanceMm(4)).isGreaterThan(on.aboveMm());
        KnotDistances one = TravelSpectrum.atSpeed(160, 10).onKnots(KNOTS);
        assertThat(one.aboveMm()).isZero();
        assertThat(one.distanceMm(4)).isEqualTo(10);
    }

    @Test
    void logOfATrapezoidIsTheTrapezoid() {
        double a = 500;
        double[] time = {0, 0.4, 4.5, 4.9};
        double[] speed = {0, 200, 200, 0};
        KnotDistances log = TravelSpectrum.ofProfile(time, speed).onKnots(KNOTS);
        KnotDistances move = TravelSpectrum.move(900, 200, a).onKnots(KNOTS);
        for (int k = 0; k < KNOTS.length; k++) {
            assertThat(log.distanceMm(k)).isCloseTo(move.distanceMm(k), within(1e-9));
        }
        assertThat(log.belowMm()).isCloseTo(move.belowMm(), within(1e-9));
    }

    @Test
    void finelySampledLogAgreesWithTheClosedForm() {
        int n = 4901;
        double[] time = new double[n];
        double[] speed = new double[n];
        for (int i = 0; i < n; i++) {
            time[i] = i * 0.001;
            speed[i] = -Math.min(200, Math.min(500 * time[i], 500 * (4.9 - time[i])));
        }
        KnotDistances log = TravelSpectrum.ofProfile(time, speed).onKnots(KNOTS);
        KnotDistances move = TravelSpectrum.move(900, 200, 500).onKnots(KNOTS);
        for (int k = 0; k < KNOTS.length; k++) {
            assertThat(log.distanceMm(k)).isCloseTo(move.distanceMm(k), within(1e-8));
        }
    }

    @Test
    void almostConstantSpeedLosesNoDigits() {
        double[] time = {0, 1, 2, 3};
        double[] speed = {30, 30 * (1 + 1e-13), 30 * (1 - 1e-12), 30 * (1 + 1e-10)};
        KnotDistances log = TravelSpectrum.ofProfile(time, speed).onKnots(KNOTS);
        KnotDistances plain = TravelSpectrum.atSpeed(30, 90).onKnots(KNOTS);
        assertThat(log.distanceMm(1)).isCloseTo(plain.distanceMm(1), within(1e-7));
        assertThat(log.distanceMm(2)).isCloseTo(plain.distanceMm(2), within(1e-7));
        assertThat(log.totalMm()).isCloseTo(90, within(1e-7));
    }

    @Test
    void reversalPassesThroughStandstill() {
        TravelSpectrum log = TravelSpectrum.ofProfile(new double[] {0, 2}, new double[] {100, -100});
        assertThat(log.totalMm()).isCloseTo(100, within(1e-12));
        assertThat(log.distanceBelowMm(50)).isCloseTo(25, within(1e-12));
    }

    @Test
    void sumsAndMultiplesAreLinear() {
        TravelSpectrum move = TravelSpectrum.move(900, 120, 450, 700);
        KnotDistances one = move.onKnots(KNOTS);
        KnotDistances repeated =
                TravelSpectrum.sum(Collections.nCopies(12, move)).onKnots(KNOTS);
        KnotDistances scaled = move.times(12).onKnots(KNOTS);
        for (int k = 0; k < KNOTS.length; k++) {
            assertThat(repeated.distanceMm(k)).isCloseTo(12 * one.distanceMm(k), within(1e-9));
            assertThat(scaled.distanceMm(k)).isCloseTo(12 * one.distanceMm(k), within(1e-9));
        }
        assertThat(TravelSpectrum.none().plus(move).totalMm()).isEqualTo(move.totalMm());
        assertThat(move.times(0).totalMm()).isZero();
    }

    @Test
    void rampsAndHoldsMakeTheMove() {
        TravelSpectrum pieces = TravelSpectrum.ramp(0, 120, 450)
                .plus(TravelSpectrum.atSpeed(120, 900 - 7200 * (1 / 450.0 + 1 / 700.0)))
                .plus(TravelSpectrum.ramp(120, 0, 700));
        KnotDistances sum = pieces.onKnots(KNOTS);
        KnotDistances move = TravelSpectrum.move(900, 120, 450, 700).onKnots(KNOTS);
        for (int k = 0; k < KNOTS.length; k++) {
            assertThat(sum.distanceMm(k)).isCloseTo(move.distanceMm(k), within(1e-9));
        }
    }

    @Test
    void integralOfAPowerOfSpeedIsItsClosedForm() {
        // integral of v^2 over both ramps: 2 V^4/(4a), over the hold: V^2 (S - V^2/a)
        double expected = 2 * Math.pow(120, 4) / (4 * 450) + 120 * 120 * (900 - 120.0 * 120 / 450);
        assertThat(TravelSpectrum.move(900, 120, 450).integral(v -> v * v))
                .isCloseTo(expected, within(1e-8 * expected));
        assertThat(TravelSpectrum.move(900, 120, 450).integral(v -> 1)).isCloseTo(900, within(1e-9));
    }

    @Test
    void impossibleArgumentsAreRefusedWithTheValue() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> TravelSpectrum.move(0, 100, 500))
                .withMessageContaining("stroke");
        assertThatIllegalArgumentException().isThrownBy(() -> TravelSpectrum.move(900, Double.NaN, 500));
        assertThatIllegalArgumentException().isThrownBy(() -> TravelSpectrum.move(900, 100, -500));
        assertThatIllegalArgumentException().isThrownBy(() -> TravelSpectrum.atSpeed(0, 10));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> TravelSpectrum.ofProfile(new double[] {0, 1, 1}, new double[] {0, 1, 2}))
                .withMessageContaining("sample 2");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> TravelSpectrum.ofProfile(new double[] {0, 1}, new double[] {0, Double.NaN}));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> TravelSpectrum.none().onKnots(new double[] {10, 10}));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> TravelSpectrum.none().onKnots(new double[0]));
    }

    private static double hat(int k, double v) {
        double x = Math.log(v);
        double own = Math.log(KNOTS[k]);
        if (x < own) {
            return k == 0 ? 0 : Math.max(0, 1 - (own - x) / (own - Math.log(KNOTS[k - 1])));
        }
        return k == KNOTS.length - 1 ? 1 : Math.max(0, 1 - (x - own) / (Math.log(KNOTS[k + 1]) - own));
    }
}
