package slowproof.trial.findings;

import java.util.List;
import slowproof.trial.Trial;
import slowproof.trial.curve.Drawing;

/** Evaluates a trial. The same trial always gives the same findings. */
public final class Evaluation {
    /** Seed that is used unless another is asked for: the same trial then gives the same findings everywhere. */
    public static final long USUAL_SEED = 1;

    private Evaluation() {}

    /**
     * Returns the findings of a trial.
     *
     * @param trial trial with at least one pass
     * @throws slowproof.trial.input.BadInputException if an exclusion names a pass that does not exist
     * @throws IllegalArgumentException if the trial has no pass, or only excluded ones
     */
    public static Findings of(Trial trial) {
        return of(trial, USUAL_SEED);
    }

    /**
     * Returns the findings of a trial with another seed for the draws of its error curves.
     *
     * @param trial trial with at least one pass
     * @param seed seed
     * @throws slowproof.trial.input.BadInputException if an exclusion names a pass that does not exist
     * @throws IllegalArgumentException if the trial has no pass, or only excluded ones
     */
    public static Findings of(Trial trial, long seed) {
        return of(trial, Drawing.of(seed));
    }

    /**
     * Returns the findings of a trial, with draws of its error curves taken from where they are kept.
     *
     * @param trial trial with at least one pass
     * @param drawing how error curves are drawn
     * @throws slowproof.trial.input.BadInputException if an exclusion names a pass that does not exist
     * @throws IllegalArgumentException if the trial has no pass, or only excluded ones
     */
    public static Findings of(Trial trial, Drawing drawing) {
        List<Pass> passes = OutlierMarks.mark(Passes.of(trial));
        List<Pass> counting = passes.stream().filter(Pass::included).toList();
        if (counting.isEmpty()) {
            throw new IllegalArgumentException("a trial needs at least one pass that is not excluded");
        }
        List<Cycle> cycles = Cycles.of(passes, trial.mode());
        List<Cycle> countingCycles = cycles.stream()
                .filter(cycle -> cycle.forward().included() && cycle.back().included())
                .toList();
        List<Condition> conditions = ConditionEvaluation.of(trial, counting, countingCycles);
        List<Condition> withExcluded =
                counting.size() == passes.size() ? List.of() : ConditionEvaluation.of(trial, passes, cycles);
        List<Material> materials = MaterialEvaluation.of(trial, counting, conditions, drawing);
        return new Findings(
                trial,
                passes,
                cycles,
                conditions,
                withExcluded,
                materials,
                Remarks.of(trial, passes, cycles, conditions, materials));
    }
}
