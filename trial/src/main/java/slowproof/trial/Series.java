package slowproof.trial;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Readings taken one after the other at one material, set-up, programmed speed and acceleration. The first
 * standstill is the start.
 *
 * @param name name, unique in the trial
 * @param material material
 * @param setup name of the set-up, empty when unnamed
 * @param speedMmPerS programmed speed in mm/s, above zero
 * @param accelerationMmPerS2 programmed acceleration in mm/s2, above zero; null when not recorded
 * @param standstills at least two, in the order of reading
 */
public record Series(
        String name,
        String material,
        String setup,
        double speedMmPerS,
        @Nullable Double accelerationMmPerS2,
        List<Standstill> standstills) {
    /** Checks and copies the parts. */
    public Series {
        Check.positive(speedMmPerS, "speed", "mm/s");
        if (accelerationMmPerS2 != null) {
            Check.positive(accelerationMmPerS2, "acceleration", "mm/s2");
        }
        standstills = List.copyOf(standstills);
        if (standstills.size() < 2) {
            throw new IllegalArgumentException("series " + name + " needs at least two standstills");
        }
    }
}
