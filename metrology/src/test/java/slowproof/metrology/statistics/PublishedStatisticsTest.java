package slowproof.metrology.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import slowproof.metrology.reference.CaseEvaluator;
import slowproof.metrology.reference.ReferenceCase;
import slowproof.metrology.reference.ReferenceCases;

/** Holds the quick published cases of statistics next to the code they test. */
class PublishedStatisticsTest {
    @TestFactory
    Stream<DynamicTest> publishedFiguresAreReproduced() {
        List<CaseEvaluator> evaluators = List.of(new PrecisionCases(), new TableCases());
        return ReferenceCases.all().stream()
                // critical values of the probability plot are simulated: minutes for a mutation tester
                .filter(reference -> !reference.kind().equals("normality"))
                .flatMap(reference -> evaluators.stream()
                        .filter(evaluator -> evaluator.handles(reference))
                        .map(evaluator -> dynamicTest(reference.id(), () -> check(reference, evaluator))));
    }

    private static void check(ReferenceCase reference, CaseEvaluator evaluator) {
        Map<String, Double> computed = evaluator.compute(reference);
        assertThat(computed).isNotEmpty();
        reference
                .expected()
                .forEach(target -> reference.check(target.name(), computed.getOrDefault(target.name(), Double.NaN)));
    }
}
