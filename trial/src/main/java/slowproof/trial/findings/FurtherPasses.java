package slowproof.trial.findings;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.uncertainty.Component;
import slowproof.trial.Trial;

/**
 * How many further passes would turn "undecided" into "conforms" if mean and scatter stay as they are. A
 * forecast to plan by, not a promise.
 */
final class FurtherPasses {
    private static final int MOST = 200;

    private FurtherPasses() {}

    /** Returns the passes still needed, 0 for none, -1 when repeats alone will not do, null when it cannot be said. */
    static @Nullable Integer needed(
            Trial trial,
            double lengthMm,
            List<Component> shared,
            double mean,
            int passes,
            Answer decision,
            @Nullable Spread spread) {
        if (decision == Answer.SCREENING_ONLY) {
            return null;
        }
        if (decision == Answer.CONFORMS) {
            return 0;
        }
        Spread start = spread == null ? guess(trial, lengthMm) : spread;
        if (decision == Answer.DOES_NOT_CONFORM || start == null) {
            return decision == Answer.DOES_NOT_CONFORM ? Integer.valueOf(-1) : null;
        }
        for (int more = 1; more <= MOST; more += more < 20 ? 1 : 10) {
            Spread then = start.withMore(more);
            Budget budget = Budget.of(
                    shared,
                    BudgetSource.REPEATABILITY_OF_THE_MEAN,
                    then.standardDeviation() / Math.sqrt(passes + more),
                    then.degreesOfFreedom());
            if (Verdict.of(trial, lengthMm, mean, budget, true).answer() == Answer.CONFORMS) {
                return more;
            }
        }
        return -1;
    }

    /** With nothing repeated, the step of the readings stands for the scatter: the fewest passes that could do. */
    private static @Nullable Spread guess(Trial trial, double lengthMm) {
        Double resolution = trial.sensor().resolutionMm();
        return resolution == null ? null : new Spread(resolution / Math.sqrt(6) / lengthMm, 0, null);
    }
}
