package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.uncertainty.Combined;
import slowproof.metrology.uncertainty.Component;

/**
 * Uncertainty of a condition's mean error, or of one future pass, relative to the mean length. The sum is the
 * root of the sum of squares with effective degrees of freedom after Welch-Satterthwaite (JCGM 100:2008 G.4.1).
 */
final class Budget {
    private final Combined combined;

    private Budget(Combined combined) {
        this.combined = combined;
    }

    /**
     * Returns the budget.
     *
     * @param shared lines that all passes share, relative to their mean length
     * @param source name of the line that comes from repeats
     * @param scatter standard uncertainty of that line, a ratio; null when nothing was repeated
     * @param degreesOfFreedom degrees of freedom of that line, above zero; not used without scatter
     */
    static Budget of(List<Component> shared, BudgetSource source, @Nullable Double scatter, double degreesOfFreedom) {
        List<Component> lines = new ArrayList<>();
        if (scatter != null) {
            lines.add(new Component(source.name(), scatter, degreesOfFreedom));
        }
        lines.addAll(shared);
        return new Budget(Combined.of(lines));
    }

    double standardUncertainty() {
        return combined.standardUncertainty();
    }

    double effectiveDegreesOfFreedom() {
        return combined.effectiveDegreesOfFreedom();
    }

    double coverageFactor() {
        return combined.coverageFactor(Rules.COVERAGE_PROBABILITY);
    }

    List<BudgetLine> lines() {
        List<BudgetLine> lines = new ArrayList<>();
        for (int i = 0; i < combined.components().size(); i++) {
            Component part = combined.components().get(i);
            lines.add(new BudgetLine(
                    BudgetSource.valueOf(part.source()),
                    part.standardUncertainty(),
                    part.degreesOfFreedom(),
                    combined.sharePercent(i)));
        }
        return lines;
    }
}
