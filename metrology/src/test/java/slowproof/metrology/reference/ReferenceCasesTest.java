package slowproof.metrology.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

class ReferenceCasesTest {
    /** Folders whose packages do not exist yet. */
    private static final Set<String> AWAITED = Set.of(
            "gum",
            "jcgm101",
            "jcgm106",
            "sensitivity",
            "strd/linear",
            "strd/anova",
            "strd/nonlinear",
            "strd/univariate",
            "handbook",
            "intervals",
            "iso230",
            "iso5725",
            "regression");

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
                        .filter(reference -> !AWAITED.contains(reference.folder()))
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
        return ReferenceCases.all().stream()
                .flatMap(reference ->
                        Evaluators.of(reference).stream().map(evaluator -> CaseResult.of(reference, evaluator)));
    }
}
