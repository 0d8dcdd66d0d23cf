package slowproof.trial.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import slowproof.trial.evidence.Assessment.Verdict;
import slowproof.trial.evidence.Evidence.Point;
import slowproof.trial.evidence.TestStep.Why;
import slowproof.trial.findings.Answer;

class AssessmentTest {
    /** A piece of 1000 mm with 1 mm: a share of 0.001. */
    private static final Inquiry SLOW = new Inquiry("felt", 25, 100.0, 500.0, 500.0, 1000, 1);

    private static Point point(double speed, double error, double passUncertainty) {
        return new Point(speed, error, 0.0001, passUncertainty, Double.POSITIVE_INFINITY, 6, 0.00002);
    }

    /** Speeds with their errors in turn, each pass known to 0.0002. */
    private static Evidence felt(double... speedsAndErrors) {
        List<Point> points = new ArrayList<>();
        for (int i = 0; i < speedsAndErrors.length; i += 2) {
            points.add(point(speedsAndErrors[i], speedsAndErrors[i + 1], 0.0002));
        }
        return new Evidence(
                "Felt",
                points.get(0).speedMmPerS(),
                points.get(points.size() - 1).speedMmPerS(),
                500.0,
                500.0,
                900,
                900,
                true,
                points);
    }

    @Test
    void probabilityIsThatOfANormalDistribution() {
        Assessment said = Assessment.of(SLOW, felt(25, 0.0008, 100, 0.0));
        // (0.001 - 0.0008)/0.0002 = 1: Phi(1) = 0.841345 (tables of the normal distribution); the far side adds nothing
        assertThat(said.judged().get(0).probability()).isCloseTo(0.841345, within(1e-6));
        assertThat(said.judged().get(0).answer()).isEqualTo(Answer.UNDECIDED);
        assertThat(said.verdict()).isEqualTo(Verdict.OPEN);
        assertThat(said.steps()).containsExactly(new TestStep(Why.REPEAT, 25, 500.0, 900, 10));
    }

    @Test
    void coveredAndHoldingEverywhereHolds() {
        Assessment said = Assessment.of(SLOW, felt(20, 0.0002, 50, 0.0001, 150, 0.0));
        assertThat(said.verdict()).isEqualTo(Verdict.HOLDS);
        assertThat(said.judged()).extracting(Assessment.Judged::inside).containsExactly(false, true, false);
        assertThat(said.gaps()).isEmpty();
        assertThat(said.steps()).isEmpty();
    }

    @Test
    void failureInTheAskedRangeDoesNotHoldAndNamesTheSpeedToTryNext() {
        Assessment said = Assessment.of(SLOW, felt(25, 0.003, 100, 0.0));
        assertThat(said.verdict()).isEqualTo(Verdict.DOES_NOT_HOLD);
        assertThat(said.steps()).containsExactly(new TestStep(Why.BETWEEN, 50, 500.0, 900, 5));
    }

    @Test
    void failureJustBelowTheAskedRangeLeavesItOpen() {
        assertThat(Assessment.of(SLOW, felt(20, 0.003, 50, 0.0, 100, 0.0)).verdict())
                .isEqualTo(Verdict.OPEN);
    }

    @Test
    void slowerThanTestedIsNotCoveredAndAsksForThatSpeed() {
        Assessment said = Assessment.of(SLOW, felt(80, 0.0002, 400, 0.0));
        assertThat(said.verdict()).isEqualTo(Verdict.NOT_COVERED);
        assertThat(said.gaps()).containsExactly(new Gap(Gap.Kind.SLOWER, 25.0, 80.0));
        assertThat(said.steps())
                .extracting(TestStep::speedMmPerS)
                .as("25 itself, and sqrt(25 * 80) = 44.7 rounded to the series R10")
                .containsExactly(25.0, 40.0);
    }

    @Test
    void anotherSurfaceIsNeverAnAnswerAndGetsALadder() {
        Inquiry film = new Inquiry("clear film", 25, 100.0, null, null, 1000, 1);
        Assessment said = Assessment.of(film, felt(20, 0.003, 50, 0.0, 100, 0.0));
        assertThat(said.verdict()).isEqualTo(Verdict.NOT_COVERED);
        assertThat(said.gaps()).extracting(Gap::kind).containsExactly(Gap.Kind.OTHER_MATERIAL);
        assertThat(said.steps()).extracting(TestStep::why).containsOnly(Why.LADDER);
        assertThat(said.steps())
                .extracting(TestStep::speedMmPerS)
                .as("three ratios of 4^(1/3): 25, 39.7, 63.0, 100")
                .containsExactly(25.0, 40.0, 63.0, 100.0);
    }

    @Test
    void accelerationsAndLengthsBeyondAFactorOfTwoAreGaps() {
        Inquiry far = new Inquiry("felt", 25, 100.0, 100.0, 1500.0, 2500, 2.5);
        assertThat(Assessment.of(far, felt(25, 0.0, 100, 0.0)).gaps())
                .containsExactly(
                        new Gap(Gap.Kind.GENTLER, 100.0, 500.0),
                        new Gap(Gap.Kind.HARDER, 1500.0, 500.0),
                        new Gap(Gap.Kind.LONGER, 2500.0, 900.0));
        Inquiry near = new Inquiry("felt", 25, 100.0, 250.0, 1000.0, 1800, 1.8);
        assertThat(Assessment.of(near, felt(25, 0.0, 100, 0.0)).verdict()).isEqualTo(Verdict.HOLDS);
    }

    @Test
    void nothingRepeatedDecidesNothing() {
        Evidence once = new Evidence(
                "felt", 25, 25, null, null, 900, 900, false, List.of(new Point(25, 0.0, 0.0001, null, 1, 1, null)));
        Inquiry at25 = new Inquiry("felt", 25, null, null, null, 900, 1);
        Assessment said = Assessment.of(at25, once);
        assertThat(said.judged().get(0).probability()).isNull();
        assertThat(said.verdict()).isEqualTo(Verdict.NOT_COVERED);
        assertThat(said.gaps()).extracting(Gap::kind).containsExactly(Gap.Kind.REFERENCE_UNKNOWN);
    }

    private static Evidence against(double referenceUncertainty, double errorAt25) {
        List<Point> points = List.of(
                new Point(25, errorAt25, 0.0001, 0.0002, Double.POSITIVE_INFINITY, 6, referenceUncertainty),
                new Point(100, 0.0, 0.0001, 0.0002, Double.POSITIVE_INFINITY, 6, referenceUncertainty));
        return new Evidence("felt", 25, 100, 500.0, 500.0, 900, 900, true, points);
    }

    @Test
    void aReferenceCoarserThanTheToleranceDecidesNothing() {
        // the tolerance is a share of 0.001
        Assessment fine = Assessment.of(SLOW, against(0.001, 0.0));
        assertThat(fine.verdict()).as("as coarse as the tolerance, not coarser").isEqualTo(Verdict.HOLDS);
        assertThat(fine.gaps()).isEmpty();
        for (double error : new double[] {0.0, 0.01}) {
            Assessment coarse = Assessment.of(SLOW, against(0.0012, error));
            assertThat(coarse.verdict()).isEqualTo(Verdict.NOT_COVERED);
            assertThat(coarse.judged()).extracting(Assessment.Judged::answer).containsOnly(Answer.UNDECIDED);
            assertThat(coarse.gaps()).containsExactly(new Gap(Gap.Kind.REFERENCE_TOO_COARSE, 1.0, 1.2));
            assertThat(coarse.steps()).as("more passes would decide nothing").isEmpty();
        }
        Inquiry generous = new Inquiry("felt", 25, 100.0, 500.0, 500.0, 1000, 5);
        assertThat(Assessment.of(generous, against(0.0012, 0.0)).verdict()).isEqualTo(Verdict.HOLDS);
    }

    @Test
    void timeAtTheBenchIsWayRampsAndStandstills() {
        // 10 passes of 900/25 + 25/500 + 10 = 46.05 s
        assertThat(new TestStep(Why.LADDER, 25, 500.0, 900, 5).seconds()).isCloseTo(460.5, within(1e-9));
    }

    @Test
    void ladderWithoutAFastestSpeedGoesUpSixfold() {
        Inquiry open = new Inquiry("felt", 10, null, null, null, 1000, 1);
        assertThat(Steps.ladder(open, 900))
                .extracting(TestStep::speedMmPerS)
                .as("10 to 63 in four ratios of 1.584")
                .containsExactly(10.0, 16.0, 25.0, 40.0, 63.0);
    }
}
