package slowproof.trial.findings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Objects;
import org.junit.jupiter.api.Test;
import slowproof.metrology.conformity.Conformance;
import slowproof.trial.Limit;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.DemoPlant;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.SimulatedTrial;

class OnePassTest {
    private static Findings findings() {
        BenchPlan plan = DemoPlant.plan(null);
        Limit limit = Limit.of(DemoPlant.LIMIT_RATIO, DemoPlant.LIMIT_MM);
        return Evaluation.of(SimulatedTrial.of("", plan, Bench.read(plan, RandomStreams.of(3)), limit));
    }

    @Test
    void probabilityFromItIsTheOneOfTheFindings() {
        int compared = 0;
        for (Condition condition : findings().conditions()) {
            if (condition.direction() == Direction.BOTH || condition.singlePassProbability() == null) {
                continue;
            }
            OnePass pass = Objects.requireNonNull(OnePass.of(condition));
            double probability = Conformance.probability(
                    condition.meanError(),
                    pass.standardUncertainty(),
                    pass.degreesOfFreedom(),
                    Objects.requireNonNull(condition.limit()));
            assertThat(probability).isCloseTo(condition.singlePassProbability(), within(1e-12));
            compared++;
        }
        assertThat(compared).isGreaterThan(50);
    }

    @Test
    void onePassGoesInOneDirection() {
        Condition both = findings().conditions().stream()
                .filter(condition -> condition.direction() == Direction.BOTH)
                .findFirst()
                .orElseThrow();
        assertThatThrownBy(() -> OnePass.of(both)).hasMessageContaining("one direction");
    }
}
