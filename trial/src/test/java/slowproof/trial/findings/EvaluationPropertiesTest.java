package slowproof.trial.findings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import slowproof.trial.Exclusion;
import slowproof.trial.Series;
import slowproof.trial.Setup;
import slowproof.trial.Trial;
import slowproof.trial.input.SourcePosition;

class EvaluationPropertiesTest {
    private static final int TRIALS = 150;

    private static void forManyTrials(Consumer<SplittableRandom> check) {
        long first = Long.getLong("slowproof.seed", 1L);
        for (long seed = first; seed < first + TRIALS; seed++) {
            try {
                check.accept(new SplittableRandom(seed));
            } catch (AssertionError e) {
                throw new AssertionError("seed " + seed, e);
            }
        }
    }

    @Test
    void positiveErrorMeansOverReadingInBothDirections() {
        forManyTrials(random -> {
            for (Pass pass : Evaluation.of(RandomTrials.trial(random)).passes()) {
                double over = Math.abs(pass.indicationMm()) - Math.abs(pass.referenceMm());
                assertThat(pass.errorMm()).isCloseTo(over, within(1e-9));
            }
        });
    }

    @Test
    void turningTheAxisAroundExchangesTheDirectionsAndNothingElse() {
        forManyTrials(random -> {
            Trial trial = RandomTrials.trial(random);
            Trial turned = RandomTrials.of(trial.series().stream()
                    .map(series -> RandomTrials.mapped(series, -1, -1, 0))
                    .toList());
            List<Pass> straight = Evaluation.of(trial).passes();
            List<Pass> reversed = Evaluation.of(turned).passes();
            for (int i = 0; i < straight.size(); i++) {
                assertThat(reversed.get(i).errorMm()).isEqualTo(straight.get(i).errorMm());
                assertThat(reversed.get(i).direction())
                        .isNotEqualTo(straight.get(i).direction());
            }
        });
    }

    @Test
    void movingBothZeroPointsChangesNothing() {
        forManyTrials(random -> {
            Trial trial = RandomTrials.trial(random);
            Trial moved = RandomTrials.of(trial.series().stream()
                    .map(series -> RandomTrials.mapped(series, 1, 1, 5000))
                    .toList());
            assertThat(Evaluation.of(moved).conditions())
                    .isEqualTo(Evaluation.of(trial).conditions());
        });
    }

    @Test
    void theOrderOfSeriesOfOneMaterialDoesNotMatter() {
        forManyTrials(random -> {
            List<Series> series = new ArrayList<>();
            for (int v = 1; v < 5; v++) {
                series.add(RandomTrials.series("s" + v, "material", 25.0 * v, random));
            }
            List<Series> shuffled = new ArrayList<>(series);
            Collections.shuffle(shuffled, new Random(random.nextLong()));
            Findings one = Evaluation.of(RandomTrials.of(series));
            Findings other = Evaluation.of(RandomTrials.of(shuffled));
            assertThat(other.conditions()).hasSameSizeAs(one.conditions());
            for (int i = 0; i < one.conditions().size(); i++) {
                Condition a = one.conditions().get(i);
                Condition b = other.conditions().get(i);
                assertThat(b.meanError()).isEqualTo(a.meanError());
                assertThat(b.expandedUncertainty()).isCloseTo(a.expandedUncertainty(), within(1e-12));
                assertThat(b.decision()).isEqualTo(a.decision());
            }
            assertThat(other.materials().get(0).floor())
                    .isEqualTo(one.materials().get(0).floor());
        });
    }

    @Test
    void anInputWithoutInfluenceChangesNoUncertainty() {
        Setup aligned = new Setup("", "", 120.0, 0.0, 5.0, 0.0, 20.0, 0.0, 11.5, 0.1);
        forManyTrials(random -> {
            Trial plain = RandomTrials.trial(random);
            Trial noted = new Trial(
                    plain.title(),
                    plain.sensor(),
                    plain.reference(),
                    plain.limit(),
                    null,
                    aligned,
                    plain.rule(),
                    plain.mode(),
                    plain.series(),
                    List.of(),
                    List.of(),
                    List.of());
            List<Condition> without = Evaluation.of(plain).conditions();
            List<Condition> with = Evaluation.of(noted).conditions();
            for (int i = 0; i < without.size(); i++) {
                assertThat(with.get(i).standardUncertainty())
                        .isEqualTo(without.get(i).standardUncertainty());
                assertThat(with.get(i).effectiveDegreesOfFreedom())
                        .isEqualTo(without.get(i).effectiveDegreesOfFreedom());
            }
        });
    }

    @Test
    void sharesOfTheBudgetMakeTheWholeAndSquaresTheSum() {
        forManyTrials(random -> {
            for (Condition condition : Evaluation.of(RandomTrials.trial(random)).conditions()) {
                double shares = 0;
                double squares = 0;
                for (BudgetLine line : condition.budget()) {
                    shares += line.sharePercent();
                    squares += line.standardUncertainty() * line.standardUncertainty();
                }
                assertThat(shares).isCloseTo(100, within(1e-9));
                assertThat(Math.sqrt(squares)).isCloseTo(condition.standardUncertainty(), within(1e-15));
            }
        });
    }

    @Test
    void closureIsForwardErrorMinusReturnError() {
        forManyTrials(random -> {
            for (Cycle cycle : Evaluation.of(RandomTrials.trial(random)).cycles()) {
                assertThat(cycle.closureMm())
                        .isCloseTo(cycle.forward().errorMm() - cycle.back().errorMm(), within(1e-9));
            }
        });
    }

    @Test
    void noConditionConformsWithoutARepeatInItsMaterial() {
        forManyTrials(random -> {
            for (Condition condition : Evaluation.of(RandomTrials.trial(random)).conditions()) {
                if (condition.flags().contains(Flag.NO_REPEATABILITY)) {
                    assertThat(condition.decision()).isNotEqualTo(Answer.CONFORMS);
                    assertThat(condition.singlePassProbability()).isNull();
                }
            }
        });
    }

    @Test
    void anExcludedPassStaysInTheRecordAndBothResultsAreGiven() {
        Trial trial = RandomTrials.of(List.of(RandomTrials.series("s", "material", 50, new SplittableRandom(8))));
        int passes = Evaluation.of(trial).passes().size();
        Findings findings = Evaluation.of(
                trial.excluding(List.of(new Exclusion("s/1", "cable caught", SourcePosition.ofFile("trial.yaml")))));
        assertThat(findings.passes()).hasSize(passes);
        assertThat(findings.passes().get(0).excludedBecause()).isEqualTo("cable caught");
        int counted = findings.conditions().stream()
                .filter(condition -> condition.direction() != Direction.BOTH)
                .mapToInt(Condition::passes)
                .sum();
        int all = findings.conditionsWithExcluded().stream()
                .filter(condition -> condition.direction() != Direction.BOTH)
                .mapToInt(Condition::passes)
                .sum();
        assertThat(counted).isEqualTo(passes - 1);
        assertThat(all).isEqualTo(passes);
    }
}
