package slowproof.trial.findings;

import java.util.Locale;

/** Why a figure is not available. The key of each sentence in the message bundles is {@code reason.} followed by {@link #key()}. */
public enum ReasonCode {
    ONE_PASS,
    NO_REPEATS,
    NO_LIMIT,
    NO_REFERENCE_UNCERTAINTY,
    INFINITE,
    SCATTER_BELOW_RESOLUTION,
    NOT_RECORDED,
    NO_ACCELERATION,
    COUNTER_ZEROED,
    NOT_DRIVEN_BACK,
    TYPED_READINGS,
    TOO_FEW_CYCLES,
    THIN_TRIAL,
    ONE_STROKE,
    NOTHING_HOLDS,
    NO_CURVE,
    OUTSIDE_FAMILY,
    NO_PLATEAU,
    SHORT_PLATEAU,
    NO_SETTLED_STANDSTILL,
    ONE_SPEED,
    DROPOUTS,
    BEYOND_TESTED;

    /** Returns the code as key of the message bundles, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
