package slowproof.metrology.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

class ReferenceCasesTest {
    @TestFactory
    Stream<DynamicTest> everyPublishedFigureIsReproduced() {
        return results()
                .map(result -> dynamicTest(result.reference().id(), () -> {
                    assertThat(result.missing()).as("figures not computed").isEmpty();
                    assertThat(result.misses())
                            .as(result.reference().citation())
                            .isEmpty();
                }));
    }

    @Test
    void noCaseFileIsLeftUncomputed() {
        assertThat(ReferenceCases.all().stream()
                        .filter(reference -> Evaluators.of(reference).isEmpty())
                        .map(ReferenceCase::id))
                .isEmpty();
    }

    @Test
    void validationPageShowsTheAgreementOfThisRun() {
        List<String> rows = new ArrayList<>();
        rows.add("| case | source | printed figures | figures | required | correct digits |");
        rows.add("|---|---|---|---|---|---|");
        results().map(CaseResult::tableRow).forEach(rows::add);
        ValidationPage.compareOrWrite("reference cases", rows, 1);
    }

    @Test
    void digitsCountTheRelativeError() {
        assertThat(Agreement.digits(100.1, 100)).isBetween(2.99, 3.01);
        assertThat(Agreement.digits(1e-7, 0)).isBetween(6.99, 7.01);
        assertThat(Agreement.digits(3, 3)).isEqualTo(15);
        assertThat(Agreement.digits(300, 3)).isZero();
        assertThat(Agreement.digits(Double.NaN, 3)).isZero();
    }

    /** Folders of cases that take millions of random trials. */
    private static final Set<String> SLOW = Set.of("jcgm101", "sensitivity");

    private static Stream<CaseResult> results() {
        // mutation testing changes the code under a living test class: nothing may be remembered, nothing may be slow
        return Boolean.getBoolean("slowproof.quick")
                ? computed(reference -> !SLOW.contains(reference.folder()))
                : Results.ALL.stream();
    }

    private static Stream<CaseResult> computed(Predicate<ReferenceCase> wanted) {
        return ReferenceCases.all().stream()
                .filter(wanted)
                .flatMap(reference ->
                        Evaluators.of(reference).stream().map(evaluator -> CaseResult.of(reference, evaluator)));
    }

    /** Every case computed once, however many tests look at it. */
    private static final class Results {
        private static final List<CaseResult> ALL = computed(reference -> true).toList();
    }
}
