package slowproof.trial.clock;

import java.util.Locale;

/** Why two clocks cannot be brought together, or not finely. */
public enum ClockReason {
    /** Too little common motion to find where one log lies in the other. */
    NO_COMMON_MOTION,
    /** One of the clocks was set back during the record. */
    CLOCK_SET_BACK,
    /** The logs fit together at several offsets about equally well. */
    AMBIGUOUS,
    /** Fewer than two passes with enough counts: roughly aligned only. */
    TOO_FEW_PASSES,
    /** The estimate did not settle, or its uncertainty is larger than the rough alignment's: roughly aligned only. */
    NOT_SETTLED,
    /** The reference moves in steps too large beside a count: roughly aligned only. */
    REFERENCE_COARSE,
    /** Brought together by one offset, one log moves while the other rests: the clocks do not run alike. */
    RATES_DIFFER;

    /** Returns the reason as written in files and message bundles, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
