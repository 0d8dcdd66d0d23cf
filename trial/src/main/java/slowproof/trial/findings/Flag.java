package slowproof.trial.findings;

import java.util.Locale;

/**
 * Marks on passes and conditions. A flag never drops anything. The key of each explanation in the message
 * bundles is {@code flag.} followed by {@link #key()}.
 */
public enum Flag {
    // on passes
    EXCLUDED,
    STRAGGLER,
    OUTLIER,
    OVERSHOOT,
    SHORT_DWELL,
    STOP_INSIDE_PASS,
    DIRECTION_UNCLEAR,
    ILLEGAL_TRANSITIONS,
    GAP_IN_PASS,
    STANDSTILL_DRIFT,
    NO_PLATEAU,
    // on conditions
    POOLED_REPEATABILITY,
    FEW_REPEATS,
    NO_REPEATABILITY,
    SCATTER_BELOW_RESOLUTION,
    REFERENCE_TOO_COARSE,
    REFERENCE_RATIO_LOW,
    COCHRAN_STRAGGLER,
    COCHRAN_OUTLIER,
    REVERSAL_SIGNIFICANT;

    /** Returns the flag as written in files and as key of the message bundles, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
