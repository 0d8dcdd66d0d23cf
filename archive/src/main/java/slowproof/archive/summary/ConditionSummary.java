package slowproof.archive.summary;

import org.jspecify.annotations.Nullable;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.Condition;

/**
 * A condition in figures, both directions together where both were driven.
 *
 * @param setup name of the set-up, empty when unnamed
 * @param speedMmPerS programmed speed in mm/s
 * @param accelerationMmPerS2 programmed acceleration in mm/s2, or null
 * @param passes number of passes
 * @param lengthMm mean length of the passes in mm
 * @param error mean relative error
 * @param uncertainty combined standard uncertainty of the mean, a ratio
 * @param freedom its effective degrees of freedom; null for infinitely many
 * @param repeatability standard deviation of one pass, a ratio; null when nothing was repeated
 * @param answer answer about one future pass
 */
public record ConditionSummary(
        String setup,
        double speedMmPerS,
        @Nullable Double accelerationMmPerS2,
        int passes,
        double lengthMm,
        double error,
        double uncertainty,
        @Nullable Double freedom,
        @Nullable Double repeatability,
        Answer answer) {
    static ConditionSummary of(Condition condition) {
        double freedom = condition.effectiveDegreesOfFreedom();
        return new ConditionSummary(
                condition.key().setup(),
                condition.key().speedMmPerS(),
                condition.key().accelerationMmPerS2(),
                condition.passes(),
                condition.meanLengthMm(),
                condition.meanError(),
                condition.standardUncertainty(),
                Double.isInfinite(freedom) ? null : Double.valueOf(freedom),
                condition.repeatability(),
                condition.singlePassDecision());
    }
}
