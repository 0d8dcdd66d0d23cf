package slowproof.trial.note;

import java.util.Locale;

/** Remarks on a result. The key of each sentence in the message bundles is {@code note.} followed by {@link #key()}. */
public enum NoteCode {
    NO_REFERENCE_UNCERTAINTY,
    NO_LIMIT,
    LIMIT_FROM_MEMORY,
    TAPE_CLASS,
    NO_RESOLUTION,
    NO_ACCELERATION,
    NO_MISALIGNMENT,
    NO_TEMPERATURE,
    NO_ANCHOR_PASS,
    ABBE_WITHOUT_ANGLE,
    TEMPERATURE_CORRECTED,
    REFERENCE_RATIO_LOW,
    REFERENCE_TOO_COARSE,
    MORE_PASSES_WOULD_DO,
    MORE_PASSES_WILL_NOT_DO,
    MEAN_AND_SINGLE_PASS_DIFFER,
    EXCLUDED,
    CLOSURE_NOT_AVAILABLE,
    SCATTER_BELOW_RESOLUTION,
    STRAGGLER,
    FLAGS_BY_CHANCE,
    OUTLIER,
    COCHRAN_STRAGGLER,
    COCHRAN_OUTLIER,
    REVERSAL_SIGNIFICANT,
    SEVERAL_SETUPS,
    FEWER_THAN_TWO_PASSES,
    COLUMNS_IGNORED,
    DECIMAL_COMMA_READ,
    CONFIRMED,
    CURVE_LACK_OF_FIT,
    CURVE_OUTSIDE_FAMILY,
    SPEED_NOT_REACHED,
    SCATTER_DIFFERS_WITH_SPEED,
    COUNTS_TOO_COARSE,
    DRIFT_IN_SERIES,
    DRIFT_BETWEEN_SERIES,
    WARM_UP,
    ORDER_NOT_RANDOM,
    ORDER_CONFOUNDED,
    RESIDUAL_OUTLIER;

    /** Returns the code as written in message bundles and in JSON, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
