package slowproof.trial.findings;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import slowproof.trial.findings.FloorSpeed.Status;

class FloorBracketTest {
    private static final Answer YES = Answer.CONFORMS;
    private static final Answer NO = Answer.DOES_NOT_CONFORM;
    private static final Answer OPEN = Answer.UNDECIDED;

    /** Answers from 10 mm/s upwards in steps of 10 mm/s. */
    private static FloorSpeed floor(Answer... answers) {
        List<Condition> conditions = new ArrayList<>();
        for (int i = 0; i < answers.length; i++) {
            ConditionKey key = new ConditionKey("material", "", 10.0 * (i + 1), null);
            conditions.add(new Condition(
                    key,
                    Direction.BOTH,
                    2,
                    600,
                    0,
                    0,
                    null,
                    null,
                    null,
                    0.001,
                    0,
                    Double.POSITIVE_INFINITY,
                    2,
                    0,
                    null,
                    answers[i],
                    0,
                    null,
                    answers[i],
                    null,
                    List.of(),
                    null,
                    null,
                    null,
                    Set.of(),
                    Map.of()));
        }
        return FloorBracket.of(conditions, Condition::decision);
    }

    @Test
    void aHoldingAndAFailingSpeedMakeABracket() {
        FloorSpeed floor = floor(NO, YES, YES);
        assertThat(floor.status()).isEqualTo(Status.BRACKET);
        assertThat(floor.low()).isEqualTo(10);
        assertThat(floor.high()).isEqualTo(20);
        assertThat(floor.safe()).isEqualTo(20);
    }

    @Test
    void anUndecidedSpeedWidensTheBracket() {
        FloorSpeed floor = floor(NO, OPEN, YES);
        assertThat(floor.status()).isEqualTo(Status.BRACKET);
        assertThat(floor.low()).isEqualTo(10);
        assertThat(floor.high()).isEqualTo(30);
        assertThat(floor.undecided()).containsExactly(20.0);
    }

    @Test
    void aSlowSpeedThatHoldsBelowAFailingOneDoesNotLowerTheFloor() {
        FloorSpeed floor = floor(YES, NO, YES);
        assertThat(floor.status()).isEqualTo(Status.BRACKET);
        assertThat(floor.low()).isEqualTo(20);
        assertThat(floor.high()).isEqualTo(30);
    }

    @Test
    void everySpeedHolding() {
        FloorSpeed floor = floor(YES, YES);
        assertThat(floor.status()).isEqualTo(Status.HOLDS_THROUGHOUT);
        assertThat(floor.testedDownTo()).isEqualTo(10);
        assertThat(floor.safe()).isEqualTo(10);
    }

    @Test
    void noSpeedHolding() {
        assertThat(floor(NO, NO).status()).isEqualTo(Status.DOES_NOT_HOLD);
    }

    @Test
    void theFastestFailingLeavesABand() {
        FloorSpeed floor = floor(NO, YES, YES, NO);
        assertThat(floor.status()).isEqualTo(Status.HOLDS_IN_A_BAND);
        assertThat(floor.low()).isEqualTo(20);
        assertThat(floor.high()).isEqualTo(30);
    }

    @Test
    void nothingShownIsUndecided() {
        assertThat(floor(NO, OPEN).status()).isEqualTo(Status.UNDECIDED);
        assertThat(floor(OPEN, OPEN).status()).isEqualTo(Status.UNDECIDED);
    }

    @Test
    void holdingAboveAnOpenSpeedIsUndecidedButNamesTheSafeSpeed() {
        FloorSpeed floor = floor(OPEN, YES);
        assertThat(floor.status()).isEqualTo(Status.UNDECIDED);
        assertThat(floor.safe()).isEqualTo(20);
    }
}
