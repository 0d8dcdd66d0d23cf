package slowproof.metrology.conformity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

class RiskTest {

    private static final double INFINITE = Double.POSITIVE_INFINITY;
    private static final Interval UNIT = new Interval(-1, 1);

    @Test
    void probabilityInsideAndOutsideAddUpToOne() {
        long seed = Long.getLong("slowproof.seed", 31L);
        SplittableRandom random = new SplittableRandom(seed);
        for (int trial = 0; trial < 500; trial++) {
            double m = 4 * random.nextDouble() - 2;
            double u = 0.01 + random.nextDouble();
            double nu = 1 + 30 * random.nextDouble();
            Interval tolerance = new Interval(-1 + 0.3 * random.nextDouble(), 1.5);
            double inside = Conformance.probability(m, u, nu, tolerance);
            double outside = Conformance.probabilityOutside(m, u, nu, tolerance);
            assertThat(inside + outside).as("seed %s", seed).isCloseTo(1, within(1e-12));
            assertThat(inside).isBetween(0.0, 1.0);
            // mirrored
            Interval mirror = new Interval(-tolerance.high(), -tolerance.low());
            assertThat(Conformance.probability(-m, u, nu, mirror)).isCloseTo(inside, within(1e-14));
        }
    }

    @Test
    void oneSidedLimitsHaveOneTail() {
        Interval upper = new Interval(-INFINITE, 5);
        assertThat(Conformance.probability(5, 1, INFINITE, upper)).isEqualTo(0.5);
        assertThat(Conformance.probability(3, 1, 4, upper)).isCloseTo(Distributions.studentCdf(2, 4), within(1e-15));
        assertThat(Conformance.probabilityOutside(3, 1, 4, upper))
                .isCloseTo(Distributions.studentCdf(-2, 4), within(1e-15));
        Interval lower = new Interval(5, INFINITE);
        assertThat(Conformance.probability(3, 1, INFINITE, lower))
                .isCloseTo(Distributions.normalCdf(-2), within(1e-17));
        assertThat(Conformance.probability(1e6, 1, INFINITE, new Interval(-INFINITE, INFINITE)))
                .isEqualTo(1);
    }

    @Test
    void smallProbabilitiesKeepTheirDigits() {
        // Phi(-9) = 1.128588405953840e-19 (mpmath)
        assertThat(Conformance.probability(-10, 1, INFINITE, UNIT)).isCloseTo(1.1285884e-19, within(1e-25));
        assertThat(Conformance.probabilityOutside(0, 1, INFINITE, new Interval(-9, 20)))
                .isCloseTo(1.1285884e-19, within(1e-25));
        assertThat(Conformance.probabilityOutside(0, 1, INFINITE, new Interval(-20, 9)))
                .isCloseTo(1.1285884e-19, within(1e-25));
    }

    @Test
    void withoutUncertaintyTheValueDecides() {
        assertThat(Conformance.probability(1, 0, INFINITE, UNIT)).isEqualTo(1);
        assertThat(Conformance.probability(1.0001, 0, INFINITE, UNIT)).isZero();
        assertThat(Conformance.probabilityOutside(1, 0, INFINITE, UNIT)).isZero();
        assertThat(Conformance.probabilityOutside(-1.0001, 0, INFINITE, UNIT)).isEqualTo(1);
        assertThatIllegalArgumentException().isThrownBy(() -> Conformance.probabilityOutside(Double.NaN, 1, 1, UNIT));
        assertThatIllegalArgumentException().isThrownBy(() -> Conformance.probabilityOutside(0, -1, 1, UNIT));
        assertThatIllegalArgumentException().isThrownBy(() -> Conformance.probabilityOutside(0, 0, 0, UNIT));
        assertThatIllegalArgumentException().isThrownBy(() -> Conformance.probability(0, 0, 0, UNIT));
    }

    @Test
    void rulesKnowOneSidedAndLopsidedLimits() {
        Interval upper = new Interval(-INFINITE, 5);
        assertThat(DecisionRule.PROBABILITY.decide(3.3, 1, INFINITE, 0.95, upper))
                .isEqualTo(Decision.CONFORMS);
        assertThat(DecisionRule.PROBABILITY.decide(3.4, 1, INFINITE, 0.95, upper))
                .isEqualTo(Decision.UNDECIDED);
        assertThat(DecisionRule.PROBABILITY.decide(6.7, 1, INFINITE, 0.95, upper))
                .isEqualTo(Decision.DOES_NOT_CONFORM);
        Interval lopsided = new Interval(-1, 3);
        assertThat(DecisionRule.EXPANDED.decide(-0.1, 0.5, INFINITE, 0.9545, lopsided))
                .isEqualTo(Decision.UNDECIDED);
        assertThat(DecisionRule.EXPANDED.decide(0.1, 0.5, INFINITE, 0.9545, lopsided))
                .isEqualTo(Decision.CONFORMS);
        assertThat(DecisionRule.EXPANDED.decide(-2.1, 0.5, INFINITE, 0.9545, lopsided))
                .isEqualTo(Decision.DOES_NOT_CONFORM);
        assertThat(DecisionRule.EXPANDED.decide(1.9, 0.5, INFINITE, 0.9545, lopsided))
                .isEqualTo(Decision.CONFORMS);
        assertThat(DecisionRule.EXPANDED.decide(4.1, 0.5, INFINITE, 0.9545, lopsided))
                .isEqualTo(Decision.DOES_NOT_CONFORM);
        assertThat(DecisionRule.SIMPLE.decide(3, 9, INFINITE, 0.9545, lopsided)).isEqualTo(Decision.CONFORMS);
        assertThat(DecisionRule.SIMPLE.decide(-1.1, 9, INFINITE, 0.9545, lopsided))
                .isEqualTo(Decision.DOES_NOT_CONFORM);
    }

    @Test
    void acceptanceIsWhereTheRuleSaysConforms() {
        for (double ratio : new double[] {1.97, 2, 2.5, 3, 4, 50}) {
            for (double nu : new double[] {4, 20, INFINITE}) {
                Interval tolerance = new Interval(10 - ratio, 10 + ratio);
                var acceptance = GuardBand.acceptance(tolerance, 1, nu, 0.95);
                if (acceptance.isEmpty()) {
                    assertThat(DecisionRule.PROBABILITY.decide(10, 1, nu, 0.95, tolerance))
                            .isEqualTo(Decision.UNDECIDED);
                    continue;
                }
                double end = acceptance.get().high();
                assertThat(acceptance.get().centre()).isCloseTo(10, within(1e-12));
                assertThat(Conformance.probability(end, 1, nu, tolerance)).isCloseTo(0.95, within(1e-12));
                assertThat(DecisionRule.PROBABILITY.decide(end - 1e-9, 1, nu, 0.95, tolerance))
                        .isEqualTo(Decision.CONFORMS);
                assertThat(DecisionRule.PROBABILITY.decide(end + 1e-9, 1, nu, 0.95, tolerance))
                        .isEqualTo(Decision.UNDECIDED);
                Interval notRejected = GuardBand.notRejected(tolerance, 1, nu, 0.95);
                assertThat(Conformance.probabilityOutside(notRejected.low(), 1, nu, tolerance))
                        .isCloseTo(0.95, within(1e-12));
                assertThat(DecisionRule.PROBABILITY.decide(notRejected.low() - 1e-9, 1, nu, 0.95, tolerance))
                        .isEqualTo(Decision.DOES_NOT_CONFORM);
                assertThat(DecisionRule.PROBABILITY.decide(notRejected.high() - 1e-9, 1, nu, 0.95, tolerance))
                        .isEqualTo(Decision.UNDECIDED);
            }
        }
    }

    @Test
    void nothingConformsWhenTheUncertaintyIsTooLarge() {
        // no estimate conforms below a limit of 1.96 u (closed form)
        assertThat(GuardBand.acceptance(UNIT, 1 / 1.959, INFINITE, 0.95)).isEmpty();
        assertThat(GuardBand.acceptance(UNIT, 1 / 1.961, INFINITE, 0.95)).isPresent();
        // at a limit of 0.06 u even an estimate of zero lies outside with 95 %
        assertThat(GuardBand.notRejected(UNIT, 1 / 0.06, INFINITE, 0.95)).isEqualTo(new Interval(0, 0));
        assertThat(GuardBand.notRejected(UNIT, 1 / 0.07, INFINITE, 0.95).width())
                .isPositive();
    }

    @Test
    void guardBandAgainstOneLimit() {
        assertThat(GuardBand.width(2, INFINITE, 0.95)).isCloseTo(2 * 1.6448536269514722, within(1e-12));
        // t(0.95, 4) = 2.131847 (tables)
        assertThat(GuardBand.width(1, 4, 0.95)).isCloseTo(2.131847, within(1e-6));
        assertThat(GuardBand.width(1, 4, 0.5)).isZero();
        assertThat(GuardBand.width(0, 4, 0.95)).isZero();
        double guard = GuardBand.width(1, 4, 0.95);
        assertThat(GuardBand.acceptance(new Interval(-INFINITE, 5), 1, 4, 0.95))
                .contains(new Interval(-INFINITE, 5 - guard));
        assertThat(GuardBand.acceptance(new Interval(5, INFINITE), 1, 4, 0.95))
                .contains(new Interval(5 + guard, INFINITE));
        assertThat(GuardBand.notRejected(new Interval(5, INFINITE), 1, 4, 0.95))
                .isEqualTo(new Interval(5 - guard, INFINITE));
        assertThat(GuardBand.acceptance(UNIT, 0, 4, 0.95)).contains(UNIT);
        assertThat(GuardBand.notRejected(UNIT, 0, 4, 0.95)).isEqualTo(UNIT);
        assertThatIllegalArgumentException().isThrownBy(() -> GuardBand.width(-1, 4, 0.95));
        assertThatIllegalArgumentException().isThrownBy(() -> GuardBand.width(1, 0, 0.95));
        assertThatIllegalArgumentException().isThrownBy(() -> GuardBand.width(0, 0, 0.95));
        assertThatIllegalArgumentException().isThrownBy(() -> GuardBand.width(1, 4, 0.4));
        assertThatIllegalArgumentException().isThrownBy(() -> GuardBand.width(1, 4, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> GuardBand.width(1, 4, Double.NaN));
    }

    @Test
    void priorAndMeasurementAreWeighted() {
        // prior N(10, 2), measured 15 with u = 1: weight 4/5, deviation 2/sqrt 5
        NormalPrior after = new NormalPrior(10, 2).after(15, 1);
        assertThat(after.mean()).isCloseTo(14, within(1e-12));
        assertThat(after.standardDeviation()).isCloseTo(2 / Math.sqrt(5), within(1e-12));
        // a vague prior leaves the measurement as it is
        NormalPrior vague = new NormalPrior(0, 1e12).after(5, 1);
        assertThat(vague.mean()).isCloseTo(5, within(1e-9));
        assertThat(vague.standardDeviation()).isCloseTo(1, within(1e-9));
        assertThatIllegalArgumentException().isThrownBy(() -> new NormalPrior(0, 0));
        assertThatIllegalArgumentException().isThrownBy(() -> new NormalPrior(Double.NaN, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> new NormalPrior(0, 1).after(Double.NaN, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> new NormalPrior(0, 1).after(0, 0));
    }

    @Test
    void globalRisksAreTheFrequenciesOfASimulation() {
        NormalPrior prior = new NormalPrior(0.2, 0.6);
        double u = 0.25;
        Interval acceptance = new Interval(-0.8, 0.9);
        GlobalRisk risk = GlobalRisk.of(prior, u, UNIT, acceptance);
        long seed = Long.getLong("slowproof.seed", 77L);
        Random random = new Random(seed);
        int n = 400_000;
        int conforming = 0;
        int consumer = 0;
        int producer = 0;
        for (int i = 0; i < n; i++) {
            double item = prior.mean() + prior.standardDeviation() * random.nextGaussian();
            double measured = item + u * random.nextGaussian();
            boolean good = UNIT.contains(item);
            boolean accepted = acceptance.contains(measured);
            conforming += good ? 1 : 0;
            consumer += accepted && !good ? 1 : 0;
            producer += !accepted && good ? 1 : 0;
        }
        // five standard errors
        assertThat((double) conforming / n).isCloseTo(risk.conforming(), within(0.0025));
        assertThat((double) consumer / n).as("seed %s", seed).isCloseTo(risk.consumer(), within(0.0012));
        assertThat((double) producer / n).as("seed %s", seed).isCloseTo(risk.producer(), within(0.0025));
    }

    @Test
    void globalRisksAtTheEdges() {
        NormalPrior prior = new NormalPrior(0, 1);
        // accepting everything: the consumer bears all that does not conform
        GlobalRisk all = GlobalRisk.of(prior, 0.5, UNIT, new Interval(-INFINITE, INFINITE));
        assertThat(all.consumer()).isCloseTo(1 - all.conforming(), within(1e-12));
        assertThat(all.producer()).isZero();
        // accepting next to nothing: the producer bears all that conforms
        GlobalRisk none = GlobalRisk.of(prior, 0.5, UNIT, new Interval(50, 60));
        assertThat(none.producer()).isCloseTo(none.conforming(), within(1e-12));
        assertThat(none.consumer()).isZero();
        // one-sided, acceptance at the limit in the middle of the prior: both risks atan(1/rho)/(2 pi), by the
        // orthant probability of two correlated normal values with u = u0: 1/8 each
        Interval below = new Interval(-INFINITE, 0);
        GlobalRisk half = GlobalRisk.of(prior, 1, below, below);
        assertThat(half.consumer()).isCloseTo(0.125, within(1e-12));
        assertThat(half.producer()).isCloseTo(0.125, within(1e-12));
        assertThat(half.conforming()).isEqualTo(0.5);
        // a prior wholly beyond the limits, in other units
        GlobalRisk far = GlobalRisk.of(new NormalPrior(1000, 2), 0.001, new Interval(0, 100), new Interval(0, 100));
        assertThat(far.conforming()).isZero();
        assertThat(far.consumer()).isZero();
        assertThat(far.producer()).isZero();
        // a very fine measurement makes hardly a wrong decision
        GlobalRisk fine = GlobalRisk.of(prior, 1e-6, UNIT, UNIT);
        // density 0.242 at each limit, each loses 1e-6/sqrt(2 pi)
        double expected = 2 * 0.24197072451914337 * 1e-6 / Math.sqrt(2 * Math.PI);
        assertThat(fine.consumer()).isCloseTo(expected, within(1e-12));
        assertThat(fine.producer()).isCloseTo(expected, within(1e-12));
        assertThatIllegalArgumentException().isThrownBy(() -> GlobalRisk.of(prior, 0, UNIT, UNIT));
    }
}
