package slowproof.trial.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import slowproof.trial.forecast.ErrorAlong.Place;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceMotion;
import slowproof.trial.line.PieceSpec;

/** A cycle followed in time: a stop takes time and makes no error, creep takes its share of time. */
class ErrorAlongTest {
    private static final LineCurves CURVES =
            Evidence.there(LineCurves.of(Evidence.exact(10, -0.02, 400, 0, 0.05, 0.02)));

    private static List<PieceMotion> motions(int perCycle) {
        Line line = new Line(
                "t",
                null,
                List.of(PieceSpec.of(1000, 2)),
                true,
                perCycle,
                List.of(
                        LineStep.RampTo.of(200, 400),
                        new LineStep.HoldRest(),
                        LineStep.RampTo.of(20, 400),
                        new LineStep.HoldMm(40),
                        LineStep.RampTo.of(0, 400),
                        new LineStep.Stop(1.5)),
                null,
                0,
                null,
                null,
                null,
                "",
                0.95,
                0.95);
        return line.motions().stream().map(Line.WeightedPiece::motion).toList();
    }

    @Test
    void aStopIsAFlatStretchOfItsTime() {
        List<Place> places = ErrorAlong.of(CURVES, motions(1)).places();
        Place end = places.get(places.size() - 1);
        Place stopped = places.get(places.size() - 2);
        assertThat(stopped.speedMmPerS()).isZero();
        assertThat(end.speedMmPerS()).isZero();
        assertThat(end.timeS() - stopped.timeS()).isCloseTo(1.5, within(1e-9));
        assertThat(end.errorMm()).isEqualTo(stopped.errorMm());
        assertThat(end.travelMm()).isCloseTo(1000, within(1e-6));
        // 0.5 s up; down to 20 in 0.45 s; 40 mm at 20; 0.05 s to rest; what is left at 200:
        // 1000 - 50 - 49.5 - 40 - 0.5 = 860 mm in 4.3 s
        assertThat(end.timeS()).isCloseTo(0.5 + 4.3 + 0.45 + 2 + 0.05 + 1.5, within(1e-6));
    }

    @Test
    void theErrorAtTheEndIsTheExpectedOneAndThePiecesOfACycleAddUp() {
        for (int perCycle = 1; perCycle <= 3; perCycle++) {
            List<PieceMotion> motions = motions(perCycle);
            assertThat(motions).hasSize(perCycle);
            double expected = 0;
            for (PieceMotion motion : motions) {
                double mean = 0;
                double[] errors = CURVES.errorsMm(motion);
                for (double error : errors) {
                    mean += error / errors.length;
                }
                expected += mean;
            }
            List<Place> places = ErrorAlong.of(CURVES, motions).places();
            // slices of a ramp are straight, the curve is not
            assertThat(places.get(places.size() - 1).errorMm()).isCloseTo(expected, within(2e-3 * Math.abs(expected)));
            assertThat(places).isSortedAccordingTo((a, b) -> Double.compare(a.timeS(), b.timeS()));
        }
    }

    @Test
    void aHoldNeedsNoSlices() {
        // two holds and a stop with one slice each; two ramps of 40, one of 36, and the first place
        assertThat(ErrorAlong.of(CURVES, motions(1)).places()).hasSize(1 + 3 + 40 + 36 + 40);
    }
}
