package slowproof.metrology.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.ArrayList;
import java.util.List;
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

    private static Stream<CaseResult> results() {
        return Results.ALL.stream();
    }

    /** Every case computed once, however many tests look at it. */
    private static final class Results {
        private static final List<CaseResult> ALL = ReferenceCases.all().stream()
                .flatMap(reference ->
                        Evaluators.of(reference).stream().map(evaluator -> CaseResult.of(reference, evaluator)))
                .toList();
    }
}
