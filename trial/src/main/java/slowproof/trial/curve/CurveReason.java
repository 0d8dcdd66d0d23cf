package slowproof.trial.curve;

import java.util.Locale;

/** Why a figure of the curve is not available. */
public enum CurveReason {
    /** Fewer than 5 speeds with at least 3 passes each. */
    THIN_TRIAL,
    /** The means do not follow a curve that falls with speed to a base: hump, or a change of side and back. */
    OUTSIDE_FAMILY,
    /** Nothing was repeated, so no uncertainty can be given. */
    NO_REPEATS,
    /** The error still changes between the two fastest speeds. */
    NO_PLATEAU,
    /** Fewer than two tested speeds. */
    ONE_SPEED,
    /** All strokes alike, so a loss per start cannot be told from a scale error. */
    ONE_STROKE,
    /** Fewer than two cycles, so nothing is left to prove a correction on. */
    TOO_FEW_CYCLES,
    /** Too large a dropout share. */
    DROPOUTS;

    /** Returns the code as key of the message bundles, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
