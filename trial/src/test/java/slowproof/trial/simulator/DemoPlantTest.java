package slowproof.trial.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.hipparchus.stat.descriptive.DescriptiveStatistics;
import org.junit.jupiter.api.Test;

class DemoPlantTest {
    private static double floor(TrueMaterial material) {
        return material.floorMmPerS(DemoPlant.limitRatio(DemoPlant.STROKE_MM), 5, 400);
    }

    @Test
    void floorsStandWhereTheStoryNeedsThem() {
        // closed forms of the three curves, limit 0.0015 + 0.05 / 900
        double limit = 0.0015 + 0.05 / 900;
        double felt = 29 + 5.8 * Math.log(0.025 / (limit + 0.0002) - 1);
        double fabric = 45 * Math.pow(0.018 / (limit - 0.0003) - 1, 0.2);
        double film = 72 - 2 * Math.log(2) * 10.8 * Math.log(-Math.log1p(-(limit - 0.0002) / 0.045) / Math.log(2));
        assertThat(floor(DemoPlant.felt())).isCloseTo(felt, within(1e-6)).isBetween(35.0, 55.0);
        assertThat(floor(DemoPlant.fabric())).isCloseTo(fabric, within(1e-6)).isBetween(55.0, 90.0);
        assertThat(floor(DemoPlant.film())).isCloseTo(film, within(1e-6)).isBetween(90.0, 150.0);
    }

    @Test
    void fabricOverReadsWhenSlowAndTheOthersLose() {
        assertThat(DemoPlant.fabric().curve().at(10)).isGreaterThan(0.01);
        assertThat(DemoPlant.felt().curve().at(10)).isLessThan(-0.01);
        assertThat(DemoPlant.film().curve().at(10)).isLessThan(-0.04);
    }

    @Test
    void dropoutsRiseBelowTheKnee() {
        for (TrueMaterial material : DemoPlant.materials()) {
            SlowRise share = material.dropouts().share();
            assertThat(share.at(8)).isGreaterThan(10 * share.at(400));
        }
    }

    @Test
    void trialHasTenSpeedsAndAShortStrokeForEachMaterial() {
        BenchReadings bench = Bench.read(DemoPlant.plan(null), RandomStreams.of(1));
        assertThat(bench.passes()).hasSize(3 * (10 + 3) * 10);
        assertThat(bench.readings())
                .extracting(SimReading::material)
                .contains(DemoPlant.FELT, DemoPlant.FABRIC, DemoPlant.FILM);
        DescriptiveStatistics shortStroke = new DescriptiveStatistics();
        bench.passes().stream()
                .filter(pass -> pass.series().equals("felt-short-245"))
                .forEach(pass -> shortStroke.addValue(Math.abs(pass.travelMm())));
        assertThat(shortStroke.getMean()).isCloseTo(250, within(0.05));
    }

    @Test
    void lineCycleMakesOnePieceAndCreepsToTheCut() {
        Motion motion = DemoPlant.line().motion();
        assertThat(motion.positionMm(motion.durationS())).isCloseTo(2500, within(1e-9));
        assertThat(motion.moves()).hasSize(1);
        // ramps: 400^2 / 1000 up, (400^2 - 35^2) / 1000 and 35^2 / 1000 down
        double creepMm = 2500 - 2000 - 320;
        double creepS = creepMm / 35;
        assertThat(motion.durationS()).isCloseTo(0.8 + 2000 / 400.0 + 365 / 500.0 + creepS + 0.07 + 1.5, within(1e-9));
    }

    @Test
    void pieceErrorIsTheIntegralOverTheCyclePlusOneStartLoss() {
        TrueMaterial felt = DemoPlant.felt();
        LineTruth truth = DemoPlant.line().lineTruth(felt);
        Motion motion = DemoPlant.line().motion();
        int steps = 1_000_000;
        double dt = motion.durationS() / steps;
        double sum = 0;
        for (int i = 0; i < steps; i++) {
            double v = motion.speedMmPerS((i + 0.5) * dt);
            sum += felt.curve().at(v) * v * dt;
        }
        assertThat(truth.expectedErrorMm()).isCloseTo(sum - 0.03, within(1e-5));
        assertThat(truth.starts()).isEqualTo(1);
        assertThat(truth.spreadMm()).isCloseTo(Math.sqrt(0.03 * 0.03 + 0.015 * 0.015 * 2.5), within(1e-12));
    }

    @Test
    void drawnPiecesHaveTheStatedMeanAndSpread() {
        LineTruth truth = DemoPlant.line().lineTruth(DemoPlant.film());
        DescriptiveStatistics pieces = new DescriptiveStatistics(truth.pieces(100_000, RandomStreams.of(5)));
        assertThat(pieces.getMean()).isCloseTo(truth.expectedErrorMm(), within(4 * truth.spreadMm() / 316));
        assertThat(pieces.getStandardDeviation()).isCloseTo(truth.spreadMm(), within(0.01 * truth.spreadMm()));
    }

    @Test
    void reversalOnTheLineTakesItsOverReadingBack() {
        TrueMaterial scaled = TrueMaterial.of("scaled", v -> 0.01).withStart(-0.1, 0.02);
        LineCycle cycle = new LineCycle(
                500,
                List.of(
                        new LineStep.RampTo(100, 500),
                        new LineStep.HoldRest(),
                        new LineStep.RampTo(-100, 500),
                        new LineStep.HoldMm(200),
                        new LineStep.RampTo(0, 500)));
        LineTruth truth = cycle.lineTruth(scaled);
        assertThat(truth.pieceMm()).isCloseTo(500, within(1e-9));
        assertThat(truth.pathMm()).isCloseTo(500 + 2 * 220, within(1e-9));
        assertThat(truth.starts()).isEqualTo(2);
        // forward and backward start losses cancel in the net length, their scatter does not
        assertThat(truth.expectedErrorMm()).isCloseTo(5, within(1e-9));
        assertThat(truth.spreadMm()).isCloseTo(0.02 * Math.sqrt(2), within(1e-12));
    }

    @Test
    void cycleThatDoesNotFitItsPieceIsRefused() {
        LineCycle tooLong = new LineCycle(
                100, List.of(new LineStep.RampTo(400, 500), new LineStep.HoldRest(), new LineStep.RampTo(0, 500)));
        assertThatThrownBy(tooLong::motion).hasMessageContaining("leaves -220");
        LineCycle tooShort = new LineCycle(1000, List.of(new LineStep.RampTo(400, 500), new LineStep.RampTo(0, 500)));
        assertThatThrownBy(tooShort::motion).hasMessageContaining("of a piece of 1000");
    }
}
