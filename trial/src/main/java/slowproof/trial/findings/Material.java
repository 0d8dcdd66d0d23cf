package slowproof.trial.findings;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.trial.curve.Compensation;
import slowproof.trial.curve.CurveResult;
import slowproof.trial.curve.ScaleError;
import slowproof.trial.dropout.DropoutLimit;

/**
 * Result of one material.
 *
 * @param material material
 * @param floor slowest speed from which on the limit holds
 * @param passScatterMm pooled standard deviation of the error of one pass in mm, or null when nothing was repeated
 * @param curve what the passes say of the error curve, or null for a thin trial
 * @param byDirection what forward and return passes say each, when the two differ significantly and both carry a curve;
 *     else empty. The floor is then that of the less favourable direction
 * @param scaleError scale error of the fast plateau, or null for a thin trial
 * @param compensation what would remain after compensation at the condition with the largest error, or null for a thin
 *     trial
 * @param dropoutLimit largest dropout share up to which a pass may be trusted; null without a limit of error
 * @param reasons for each figure that is null, by its name in files, why
 */
public record Material(
        String material,
        FloorSpeed floor,
        @Nullable Double passScatterMm,
        @Nullable CurveResult curve,
        Map<Direction, CurveResult> byDirection,
        @Nullable ScaleError scaleError,
        @Nullable Compensation compensation,
        @Nullable DropoutLimit dropoutLimit,
        Map<String, ReasonCode> reasons) {
    /** Copies the maps. */
    public Material {
        byDirection = byDirection.isEmpty() ? Map.of() : Collections.unmodifiableMap(new EnumMap<>(byDirection));
        reasons = Map.copyOf(reasons);
    }
}
