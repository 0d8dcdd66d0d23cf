package slowproof.metrology.reference;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import org.assertj.core.api.Assertions;
import org.jspecify.annotations.Nullable;

/**
 * A published (or independently computed) example: inputs, expected figures and where they come from.
 *
 * @param id unique name of the case
 * @param folder the folder its file lies in, relative to the reference folder, for example {@code strd/linear}
 * @param kind what sort of computation it is; evaluators choose by it
 * @param citation the publication
 * @param printedValues whether the printed figures were seen in a public copy, or are quoted from memory, or whether
 *     there are none
 * @param sources where data, printed figures and recomputation come from
 * @param inputs the inputs, as in the file
 * @param table the data file, null when the inputs hold everything
 * @param expected the figures
 */
public record ReferenceCase(
        String id,
        String folder,
        String kind,
        String citation,
        String printedValues,
        List<String> sources,
        JsonNode inputs,
        @Nullable CaseTable table,
        List<ExpectedValue> expected) {

    /** The data file; fails when the case has none. */
    public CaseTable data() {
        if (table == null) {
            throw new IllegalStateException(id + " has no data file");
        }
        return table;
    }

    /** A numeric input. */
    public double number(String name) {
        return input(name).doubleValue();
    }

    /** A whole-number input. */
    public int count(String name) {
        return input(name).intValue();
    }

    /** A list of numbers among the inputs; numbers written as text are read too. */
    public double[] numbers(String name) {
        List<Double> list = new ArrayList<>();
        input(name)
                .forEach(node -> list.add(node.isTextual() ? Double.parseDouble(node.asText()) : node.doubleValue()));
        return list.stream().mapToDouble(Double::doubleValue).toArray();
    }

    /** An input as it stands in the file. */
    public JsonNode input(String name) {
        JsonNode node = inputs.get(name);
        if (node == null) {
            throw new IllegalArgumentException(id + " has no input " + name);
        }
        return node;
    }

    /** One expected figure by its name. */
    public ExpectedValue expected(String name) {
        return expected.stream()
                .filter(value -> value.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(id + " has no expected value " + name));
    }

    /** Fails unless the computed figure lies within the tolerance stated for that name. */
    public void check(String name, double computed) {
        ExpectedValue target = expected(name);
        Assertions.assertThat(computed)
                .as("%s: %s (%s)", id, name, citation)
                .isCloseTo(target.value(), Assertions.within(target.tolerance()));
    }

    /** Fails unless the computed figure agrees with the expected one in at least so many significant digits. */
    public void checkDigits(String name, double computed, int digits) {
        Assertions.assertThat(Agreement.digits(computed, expected(name).value()))
                .as("%s: correct digits of %s = %s (%s)", id, name, computed, citation)
                .isGreaterThanOrEqualTo(digits);
    }
}
