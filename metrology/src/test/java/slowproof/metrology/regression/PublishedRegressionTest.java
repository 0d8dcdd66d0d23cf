package slowproof.metrology.regression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import slowproof.metrology.reference.Agreement;
import slowproof.metrology.reference.ReferenceCase;
import slowproof.metrology.reference.ReferenceCases;

/** Holds the linear and straight-line cases to the digits they reach, well beyond what is asked of them. */
class PublishedRegressionTest {
    @TestFactory
    Stream<DynamicTest> linearDataSetsKeepTheirDigits() {
        StrdLinearCases cases = new StrdLinearCases();
        return ReferenceCases.all().stream()
                .filter(cases::handles)
                .map(reference -> dynamicTest(
                        reference.id(),
                        () -> cases.compute(reference).forEach((name, value) -> {
                            // an exact fit has no F ratio to print
                            if (!name.equals("F") || printed(reference, name)) {
                                reference.checkDigits(name, value, 13);
                            }
                        })));
    }

    @TestFactory
    Stream<DynamicTest> straightLinesAndShapesKeepTheirDigits() {
        StraightLineCases lines = new StraightLineCases();
        ShapeCases shapes = new ShapeCases();
        return ReferenceCases.all().stream()
                .filter(reference -> lines.handles(reference) || shapes.handles(reference))
                .map(reference -> dynamicTest(reference.id(), () -> {
                    Map<String, Double> computed =
                            lines.handles(reference) ? lines.compute(reference) : shapes.compute(reference);
                    reference
                            .expected()
                            .forEach(target -> assertThat(Agreement.digits(
                                            computed.getOrDefault(target.name(), Double.NaN), target.best()))
                                    .as(target.name())
                                    .isGreaterThanOrEqualTo(8));
                }));
    }

    private static boolean printed(ReferenceCase reference, String name) {
        return reference.expected().stream().anyMatch(target -> target.name().equals(name));
    }
}
