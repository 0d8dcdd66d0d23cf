package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.metrology.statistics.Grubbs;

/**
 * Marks stragglers (5 %) and statistical outliers (1 %) among the passes of a condition and direction by Grubbs'
 * test for one outlying observation (ISO 5725-2:2019, 8.3.5; clause from memory). Marks drop nothing.
 */
final class OutlierMarks {
    private static final int FEWEST = 3;

    private OutlierMarks() {}

    /** Returns the passes with marks added, in the same order; excluded passes are left alone. */
    static List<Pass> mark(List<Pass> passes) {
        Map<MaterialScatter.Cell, List<Pass>> cells = new LinkedHashMap<>();
        passes.stream()
                .filter(Pass::included)
                .forEach(pass -> cells.computeIfAbsent(
                                new MaterialScatter.Cell(ConditionKey.of(pass), pass.direction()),
                                c -> new ArrayList<>())
                        .add(pass));
        Map<String, Flag> marks = new HashMap<>();
        cells.values().forEach(cell -> markOne(cell, marks));
        return passes.stream()
                .map(pass -> marks.containsKey(pass.id()) ? pass.withFlag(marks.get(pass.id())) : pass)
                .toList();
    }

    private static void markOne(List<Pass> cell, Map<String, Flag> marks) {
        if (cell.size() < FEWEST) {
            return;
        }
        double[] errors = MaterialScatter.errors(cell);
        if (MaterialScatter.pooled(List.of(errors)).standardDeviation() == 0) {
            return;
        }
        Grubbs.Farthest most = Grubbs.statistic(errors);
        if (most.statistic() > Grubbs.criticalValue(Rules.OUTLIER_LEVEL, errors.length)) {
            marks.put(cell.get(most.index()).id(), Flag.OUTLIER);
        } else if (most.statistic() > Grubbs.criticalValue(Rules.STRAGGLER_LEVEL, errors.length)) {
            marks.put(cell.get(most.index()).id(), Flag.STRAGGLER);
        }
    }
}
