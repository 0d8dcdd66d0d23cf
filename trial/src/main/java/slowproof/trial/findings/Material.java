package slowproof.trial.findings;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Result of one material.
 *
 * @param material material
 * @param floor slowest speed from which on the limit holds
 * @param passScatterMm pooled standard deviation of the error of one pass in mm, or null when nothing was repeated
 * @param reasons for each figure that is null, by its name in files, why
 */
public record Material(
        String material, FloorSpeed floor, @Nullable Double passScatterMm, Map<String, ReasonCode> reasons) {
    /** Copies the reasons. */
    public Material {
        reasons = Map.copyOf(reasons);
    }
}
