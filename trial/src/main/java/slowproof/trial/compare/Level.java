package slowproof.trial.compare;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.trial.findings.BudgetLine;
import slowproof.trial.findings.BudgetSource;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Direction;
import slowproof.trial.findings.Flag;

/**
 * The result of one condition, its uncertainty taken apart by what a difference does with it.
 *
 * @param speedMmPerS programmed speed in mm/s
 * @param accelerationMmPerS2 programmed acceleration in mm/s2, or null
 * @param direction forward, return, or both together
 * @param lengthMm mean length of the passes in mm
 * @param passes number of passes
 * @param mean mean relative error
 * @param scatter standard uncertainty of the mean from repeats, a ratio; null when nothing was repeated
 * @param freedom degrees of freedom of the scatter, above 0; not used without it
 * @param reference standard uncertainty from the reference, a ratio; null when it is unknown
 * @param other standard uncertainty from everything else, a ratio: resolution, misalignment, temperature, Abbe
 * @param pooled whether the scatter was pooled over the material, because the condition has few repeats
 */
public record Level(
        double speedMmPerS,
        @Nullable Double accelerationMmPerS2,
        Direction direction,
        double lengthMm,
        int passes,
        double mean,
        @Nullable Double scatter,
        double freedom,
        @Nullable Double reference,
        double other,
        boolean pooled) {
    /** Returns the result of a condition. */
    static Level of(Condition condition) {
        Double scatter = null;
        double freedom = Double.POSITIVE_INFINITY;
        Double reference = null;
        double squares = 0;
        for (BudgetLine line : condition.budget()) {
            double u = line.standardUncertainty();
            if (line.source() == BudgetSource.REPEATABILITY_OF_THE_MEAN) {
                scatter = u;
                freedom = line.degreesOfFreedom();
            } else if (line.source() == BudgetSource.REFERENCE) {
                reference = u;
            } else {
                squares += u * u;
            }
        }
        return new Level(
                condition.key().speedMmPerS(),
                condition.key().accelerationMmPerS2(),
                condition.direction(),
                condition.meanLengthMm(),
                condition.passes(),
                condition.meanError(),
                scatter,
                freedom,
                reference,
                Math.sqrt(squares),
                condition.flags().contains(Flag.POOLED_REPEATABILITY));
    }

    /** Returns true when both were driven at the same acceleration, or both at one that is not on record. */
    boolean sameAcceleration(Level level) {
        return Objects.equals(accelerationMmPerS2, level.accelerationMmPerS2);
    }
}
