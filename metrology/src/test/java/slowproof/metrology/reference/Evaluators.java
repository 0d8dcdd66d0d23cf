package slowproof.metrology.reference;

import java.util.List;
import java.util.Optional;
import slowproof.metrology.regression.StrdLinearCases;
import slowproof.metrology.regression.StrdNonlinearCases;

/** All evaluators of reference cases, one line each. */
final class Evaluators {
    static final List<CaseEvaluator> ALL = List.of(new StrdLinearCases(), new StrdNonlinearCases());

    private Evaluators() {}

    static Optional<CaseEvaluator> of(ReferenceCase reference) {
        return ALL.stream().filter(evaluator -> evaluator.handles(reference)).findFirst();
    }
}
