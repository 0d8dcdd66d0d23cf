package slowproof.metrology.reference;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * One case, computed and compared.
 *
 * @param reference the case
 * @param requirement what it is held to
 * @param missing names of expected figures that were not computed
 * @param misses one line per figure that fails the requirement
 * @param worstDigits correct digits of the worst figure, against the full-precision recomputation where there is one;
 *     whole digits, rounded down, at most 15
 */
record CaseResult(
        ReferenceCase reference, Requirement requirement, List<String> missing, List<String> misses, int worstDigits) {

    static CaseResult of(ReferenceCase reference, CaseEvaluator evaluator) {
        Map<String, Double> computed = evaluator.compute(reference);
        Requirement requirement = evaluator.requirement(reference);
        List<String> missing = new ArrayList<>();
        List<String> misses = new ArrayList<>();
        double worst = Agreement.MOST_DIGITS;
        for (ExpectedValue target : reference.expected()) {
            Double value = computed.get(target.name());
            if (value == null) {
                missing.add(target.name());
                continue;
            }
            if (!requirement.metBy(value, target)) {
                misses.add("%s: computed %s, expected %s +- %s, %.1f digits"
                        .formatted(
                                target.name(),
                                value,
                                target.value(),
                                target.tolerance(),
                                Agreement.digits(value, target.value())));
            }
            double goal = requirement.digits() > 0 ? target.value() : target.best();
            worst = Math.min(worst, Agreement.digits(value, goal));
        }
        return new CaseResult(reference, requirement, missing, misses, (int) worst);
    }

    String tableRow() {
        return "| %s | %s | %s | %d | %s | %d |"
                .formatted(
                        reference.id(),
                        reference.citation(),
                        reference.printedValues(),
                        reference.expected().size(),
                        requirement.describe(),
                        worstDigits);
    }
}
