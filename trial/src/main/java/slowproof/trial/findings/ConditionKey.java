package slowproof.trial.findings;

import java.util.Objects;
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
    // the methods that Java makes for a record are bound at first use, which a small trial would wait for

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof ConditionKey key
                && Double.compare(speedMmPerS, key.speedMmPerS) == 0
                && material.equals(key.material)
                && setup.equals(key.setup)
                && Objects.equals(accelerationMmPerS2, key.accelerationMmPerS2);
    }

    @Override
    public int hashCode() {
        return 31 * material.hashCode() + Double.hashCode(speedMmPerS);
    }

    static ConditionKey of(Pass pass) {
        return new ConditionKey(pass.material(), pass.setup(), pass.speedMmPerS(), pass.accelerationMmPerS2());
    }
}
