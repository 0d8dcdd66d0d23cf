package slowproof.metrology.conformity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

class DecisionRuleTest {

    private static final double INFINITE = Double.POSITIVE_INFINITY;

    @Test
    void bothTailsCount() {
        // limit 2 u, estimate on the edge of the one-sided guard band: 0.941 instead of 0.95 (closed form)
        double mean = 2 - 1.6448536269514722;
        assertThat(Conformance.probability(mean, 1, INFINITE, 2)).isCloseTo(0.941, within(0.0005));
        assertThat(DecisionRule.PROBABILITY.decide(mean, 1, INFINITE, 0.95, 2)).isEqualTo(Decision.UNDECIDED);
        // limit 1.95 u: not even an estimate of zero conforms
        assertThat(DecisionRule.PROBABILITY.decide(0, 1, INFINITE, 0.95, 1.95)).isEqualTo(Decision.UNDECIDED);
        assertThat(DecisionRule.PROBABILITY.decide(0, 1, INFINITE, 0.95, 1.96)).isEqualTo(Decision.CONFORMS);
    }

    @Test
    void farFromTheOtherLimitTheGuardBandIsTheOneSidedQuantile() {
        double guard = Distributions.normalQuantile(0.95);
        double limit = 30;
        assertThat(DecisionRule.PROBABILITY.decide(limit - guard - 1e-9, 1, INFINITE, 0.95, limit))
                .isEqualTo(Decision.CONFORMS);
        assertThat(DecisionRule.PROBABILITY.decide(limit - guard + 1e-9, 1, INFINITE, 0.95, limit))
                .isEqualTo(Decision.UNDECIDED);
        assertThat(DecisionRule.PROBABILITY.decide(-limit - guard + 1e-9, 1, INFINITE, 0.95, limit))
                .isEqualTo(Decision.UNDECIDED);
        assertThat(DecisionRule.PROBABILITY.decide(-limit - guard - 1e-9, 1, INFINITE, 0.95, limit))
                .isEqualTo(Decision.DOES_NOT_CONFORM);
    }

    @Test
    void fewDegreesOfFreedomAskForMoreRoom() {
        double guard = Distributions.studentQuantile(0.95, 3);
        assertThat(DecisionRule.PROBABILITY.decide(100 - guard - 0.01, 1, 3, 0.95, 100))
                .isEqualTo(Decision.CONFORMS);
        assertThat(DecisionRule.PROBABILITY.decide(100 - guard + 0.01, 1, 3, 0.95, 100))
                .isEqualTo(Decision.UNDECIDED);
    }

    @Test
    void expandedRuleKeepsOneExpandedUncertaintyAway() {
        // k at 0.9545 is 2.00000 for the normal distribution
        assertThat(DecisionRule.EXPANDED.decide(0.79, 0.1, INFINITE, 0.9545, 1)).isEqualTo(Decision.CONFORMS);
        assertThat(DecisionRule.EXPANDED.decide(-0.81, 0.1, INFINITE, 0.9545, 1))
                .isEqualTo(Decision.UNDECIDED);
        assertThat(DecisionRule.EXPANDED.decide(1.19, 0.1, INFINITE, 0.9545, 1)).isEqualTo(Decision.UNDECIDED);
        assertThat(DecisionRule.EXPANDED.decide(-1.21, 0.1, INFINITE, 0.9545, 1))
                .isEqualTo(Decision.DOES_NOT_CONFORM);
        // with 2 degrees of freedom k is 4.527 (tables 4.53)
        assertThat(DecisionRule.EXPANDED.decide(0.54, 0.1, 2, 0.9545, 1)).isEqualTo(Decision.CONFORMS);
        assertThat(DecisionRule.EXPANDED.decide(0.56, 0.1, 2, 0.9545, 1)).isEqualTo(Decision.UNDECIDED);
    }

    @Test
    void simpleAcceptanceLooksAtTheEstimateAlone() {
        assertThat(DecisionRule.SIMPLE.decide(-1, 5, 2, 0.95, 1)).isEqualTo(Decision.CONFORMS);
        assertThat(DecisionRule.SIMPLE.decide(Math.nextUp(1.0), 0, 2, 0.95, 1)).isEqualTo(Decision.DOES_NOT_CONFORM);
    }

    @Test
    void aValueOnTheLimitWithoutUncertaintyIsInside() {
        for (DecisionRule rule : DecisionRule.values()) {
            assertThat(rule.decide(1, 0, INFINITE, 0.95, 1)).as(rule.name()).isEqualTo(Decision.CONFORMS);
            assertThat(rule.decide(-1.0001, 0, INFINITE, 0.95, 1))
                    .as(rule.name())
                    .isEqualTo(Decision.DOES_NOT_CONFORM);
        }
    }

    @Test
    void anExpandedIntervalThatTouchesALimitIsNotBeyondIt() {
        double expanded = 0.5 * Distributions.studentQuantile((1 + 0.9) / 2, 7);
        Interval touchedInside = new Interval(3 - expanded, 3 + expanded);
        assertThat(DecisionRule.EXPANDED.decide(3, 0.5, 7, 0.9, touchedInside)).isEqualTo(Decision.CONFORMS);
        Interval above = new Interval(3 + expanded, 100);
        assertThat(DecisionRule.EXPANDED.decide(3, 0.5, 7, 0.9, above)).isEqualTo(Decision.UNDECIDED);
        Interval below = new Interval(-100, 3 - expanded);
        assertThat(DecisionRule.EXPANDED.decide(3, 0.5, 7, 0.9, below)).isEqualTo(Decision.UNDECIDED);
    }

    @Test
    void probabilityIsEvenInTheEstimateAndKeepsSmallValues() {
        assertThat(Conformance.probability(0.3, 0.2, 7, 0.5)).isEqualTo(Conformance.probability(-0.3, 0.2, 7, 0.5));
        // Phi(-9) - Phi(-11), Phi(-9) = 1.12858840595384e-19 (mpmath)
        assertThat(Conformance.probability(10, 1, INFINITE, 1)).isCloseTo(1.1285884e-19, within(1e-25));
        assertThat(Conformance.probability(1, 1, INFINITE, 0)).isZero();
    }

    @Test
    void badArgumentsAreRefused() {
        assertThatIllegalArgumentException().isThrownBy(() -> Conformance.probability(Double.NaN, 1, 1, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> Conformance.probability(0, -1, 1, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> Conformance.probability(0, 0, 0, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> Conformance.probability(0, 0, 1, -1));
        for (DecisionRule rule : DecisionRule.values()) {
            assertThatIllegalArgumentException().isThrownBy(() -> rule.decide(Double.NaN, 1, 1, 0.9, 1));
            assertThatIllegalArgumentException().isThrownBy(() -> rule.decide(0, Double.NaN, 1, 0.9, 1));
            assertThatIllegalArgumentException().isThrownBy(() -> rule.decide(0, 1, Double.NaN, 0.9, 1));
            assertThatIllegalArgumentException().isThrownBy(() -> rule.decide(0, 1, 1, 90, 1));
            assertThatIllegalArgumentException().isThrownBy(() -> rule.decide(0, 1, 1, 0.9, Double.NaN));
        }
    }
}
