package slowproof.trial.findings;

import org.jspecify.annotations.Nullable;

/**
 * What a condition is, direction apart.
 *
 * @param material material
 * @param setup name of the set-up, empty when unnamed
 * @param speedMmPerS programmed speed in mm/s
 * @param accelerationMmPerS2 programmed acceleration in mm/s2; null is a group of its own
 */
public record ConditionKey(
        String material,
        String setup,
        double speedMmPerS,
        @Nullable Double accelerationMmPerS2) {
    static ConditionKey of(Pass pass) {
        return new ConditionKey(pass.material(), pass.setup(), pass.speedMmPerS(), pass.accelerationMmPerS2());
    }
}
