package slowproof.archive.summary;

import org.jspecify.annotations.Nullable;
import slowproof.trial.Reference;
import slowproof.trial.evidence.Evidence;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Direction;
import slowproof.trial.findings.OnePass;

/**
 * A condition in one direction, in figures.
 *
 * @param setup name of the set-up, empty when unnamed
 * @param direction forward or return
 * @param speedMmPerS programmed speed in mm/s
 * @param accelerationMmPerS2 programmed acceleration in mm/s2, or null
 * @param passes number of passes
 * @param lengthMm mean length of the passes in mm
 * @param error mean relative error
 * @param uncertainty expanded uncertainty of the mean (95.45 %), a ratio
 * @param passUncertainty standard uncertainty of one future pass, a ratio; null when nothing was repeated
 * @param passFreedom its effective degrees of freedom; null for infinitely many, or with it
 * @param referenceUncertainty expanded uncertainty of the reference at that length, a ratio; null when it is not on record
 */
public record ConditionSummary(
        String setup,
        Direction direction,
        double speedMmPerS,
        @Nullable Double accelerationMmPerS2,
        int passes,
        double lengthMm,
        double error,
        double uncertainty,
        @Nullable Double passUncertainty,
        @Nullable Double passFreedom,
        @Nullable Double referenceUncertainty) {
    static ConditionSummary of(Condition condition, Reference reference) {
        OnePass pass = OnePass.of(condition);
        return new ConditionSummary(
                condition.key().setup(),
                condition.direction(),
                condition.key().speedMmPerS(),
                condition.key().accelerationMmPerS2(),
                condition.passes(),
                condition.meanLengthMm(),
                condition.meanError(),
                condition.expandedUncertainty(),
                pass == null ? null : Double.valueOf(pass.standardUncertainty()),
                pass == null || Double.isInfinite(pass.degreesOfFreedom())
                        ? null
                        : Double.valueOf(pass.degreesOfFreedom()),
                reference.hasUncertainty()
                        ? reference.expandedUncertaintyMm(condition.meanLengthMm()) / condition.meanLengthMm()
                        : null);
    }

    Evidence.Point point() {
        return new Evidence.Point(
                speedMmPerS,
                error,
                uncertainty,
                passUncertainty,
                passFreedom == null ? Double.POSITIVE_INFINITY : passFreedom,
                passes,
                referenceUncertainty);
    }
}
