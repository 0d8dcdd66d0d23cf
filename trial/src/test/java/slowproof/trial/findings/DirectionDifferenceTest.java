package slowproof.trial.findings;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import slowproof.trial.Series;
import slowproof.trial.Standstill;
import slowproof.trial.curve.CurveDraws;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.NoteCode;

/** Curves by direction are given where the directions differ, and seldom where they do not. */
class DirectionDifferenceTest {
    private static final double[] SPEEDS = {10, 16, 25, 40, 63, 100, 160, 250};

    /** A ladder of five cycles a speed; slow passes read short, return passes differ by a share of the length. */
    private static Material material(double difference, long seed) {
        return findings(difference, seed).materials().get(0);
    }

    private static Findings findings(double difference, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        List<Series> series = new ArrayList<>();
        for (double speed : SPEEDS) {
            double error = -0.02 / (1 + Math.pow(speed / 40, 4));
            List<Standstill> rows = new ArrayList<>();
            double reading = 0;
            rows.add(row(0, 0));
            for (int p = 0; p < 10; p++) {
                double move = p % 2 == 0 ? 1000 : -1000;
                double own = error + (p % 2 == 0 ? difference / 2 : -difference / 2);
                reading += move * (1 + own) + 0.05 * random.nextGaussian();
                rows.add(row(p % 2 == 0 ? 1000 : 0, Math.round(reading * 100) / 100.0));
            }
            series.add(new Series("v" + speed, "surface", "", speed, 500.0, rows));
        }
        return Evaluation.of(RandomTrials.of(series));
    }

    private static Standstill row(double reference, double reading) {
        return new Standstill(reference, reading, 2, null, null, null, null, "", SourcePosition.ofFile("readings.csv"));
    }

    @Test
    void directionsThatDifferHaveACurveEachAndTheWorseOneSetsTheFloor() {
        Findings findings = findings(0.001, 1);
        Material material = findings.materials().get(0);
        assertThat(material.byDirection()).containsOnlyKeys(Direction.FORWARD, Direction.RETURN);
        double forward =
                material.byDirection().get(Direction.FORWARD).curve().at(250).error();
        double back =
                material.byDirection().get(Direction.RETURN).curve().at(250).error();
        assertThat(forward - back).isBetween(0.0008, 0.0012);
        // both read short when slow; the return passes more so, so they need more speed
        Double floor = material.floor().estimate();
        double forwardFloor =
                material.byDirection().get(Direction.FORWARD).floor(0.0011).estimate();
        assertThat(floor).isGreaterThan(forwardFloor);
        assertThat(findings.notes()).anyMatch(note -> note.code() == NoteCode.CURVES_BY_DIRECTION);
    }

    @Test
    void aForecastGetsTheCurveOfEachDirection() {
        LineEvidence evidence = LineEvidence.of(findings(0.001, 1), "surface", 1);
        CurveDraws forward = Objects.requireNonNull(evidence.draws());
        LineEvidence.Backward back = Objects.requireNonNull(evidence.backward());
        // the simulated truth at 250 mm/s: 0.05 % apart to either side of next to nothing
        assertThat(mean(forward, 250)).isBetween(0.0004, 0.0006);
        assertThat(mean(back.draws(), 250)).isBetween(-0.0006, -0.0004);
        assertThat(back.slowestMmPerS()).isEqualTo(10);
        assertThat(evidence.fast().errorMm()).isBetween(0.4, 0.6);
        assertThat(back.fast().errorMm()).isBetween(-0.6, -0.4);
        assertThat(LineEvidence.of(findings(0, 1), "surface", 1).backward()).isNull();
    }

    private static double mean(CurveDraws draws, double speed) {
        double sum = 0;
        for (int i = 0; i < draws.count(); i++) {
            sum += draws.atSpeed(i, speed) / draws.count();
        }
        return sum;
    }

    @Test
    void directionsThatDoNotDifferSeldomHaveCurvesOfTheirOwn() {
        int wrong = 0;
        for (long seed = 1; seed <= 20; seed++) {
            wrong += material(0, seed).byDirection().isEmpty() ? 0 : 1;
        }
        assertThat(wrong).isLessThanOrEqualTo(1);
    }
}
