package slowproof.metrology.reference;

import java.util.List;
import java.util.Optional;
import slowproof.metrology.conformity.Jcgm106Cases;
import slowproof.metrology.regression.ShapeCases;
import slowproof.metrology.regression.StraightLineCases;
import slowproof.metrology.regression.StrdLinearCases;
import slowproof.metrology.regression.StrdNonlinearCases;
import slowproof.metrology.sampling.SensitivityCases;
import slowproof.metrology.statistics.PrecisionCases;
import slowproof.metrology.statistics.StrdCases;
import slowproof.metrology.statistics.TableCases;
import slowproof.metrology.uncertainty.GumCases;
import slowproof.metrology.uncertainty.Jcgm101Cases;

/** All evaluators of reference cases, one line each. */
final class Evaluators {
    static final List<CaseEvaluator> ALL = List.of(
            new StrdLinearCases(),
            new StrdNonlinearCases(),
            new StraightLineCases(),
            new ShapeCases(),
            new StrdCases(),
            new PrecisionCases(),
            new TableCases(),
            new GumCases(),
            new Jcgm101Cases(),
            new Jcgm106Cases(),
            new SensitivityCases());

    private Evaluators() {}

    static Optional<CaseEvaluator> of(ReferenceCase reference) {
        return ALL.stream().filter(evaluator -> evaluator.handles(reference)).findFirst();
    }
}
