package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.uncertainty.Combined;
import slowproof.metrology.uncertainty.Component;

/**
 * How far one future pass of a condition may lie from the mean error: the budget of the mean with the scatter of a pass
 * added to that of the mean, both in one line because both come from one estimate.
 *
 * @param standardUncertainty standard uncertainty of one pass, a ratio
 * @param degreesOfFreedom effective degrees of freedom (JCGM 100:2008 G.4.1); infinity when nothing scattered
 */
public record OnePass(double standardUncertainty, double degreesOfFreedom) {
    /**
     * Returns it for a condition in one direction; null when nothing was repeated that could tell how a pass scatters.
     *
     * @throws IllegalArgumentException if the condition is of both directions
     */
    public static @Nullable OnePass of(Condition condition) {
        if (condition.direction() == Direction.BOTH) {
            throw new IllegalArgumentException("one pass goes in one direction");
        }
        boolean repeated = false;
        List<Component> lines = new ArrayList<>();
        for (BudgetLine line : condition.budget()) {
            double own = line.standardUncertainty();
            if (line.source() == BudgetSource.REPEATABILITY_OF_THE_MEAN) {
                repeated = true;
                own = Math.hypot(own, own * Math.sqrt(condition.passes()));
            }
            lines.add(new Component(line.source().name(), own, line.degreesOfFreedom()));
        }
        if (!repeated) {
            return null;
        }
        Combined combined = Combined.of(lines);
        return new OnePass(combined.standardUncertainty(), combined.effectiveDegreesOfFreedom());
    }
}
