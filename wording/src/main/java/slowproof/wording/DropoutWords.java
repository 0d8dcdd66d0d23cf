package slowproof.wording;

import org.jspecify.annotations.Nullable;
import slowproof.trial.dropout.DropoutLimit;

/** Words of a dropout limit. */
public final class DropoutWords {
    private DropoutWords() {}

    /** Returns the status that files promise: found, whether the classes overlap or not, or not learnable. */
    public static String status(DropoutLimit limit) {
        return limit.status() == DropoutLimit.Status.FOUND_SEPARATED
                ? DropoutLimit.Status.FOUND.key()
                : limit.status().key();
    }

    /** Returns why a figure of the limit is absent. */
    public static String why(DropoutLimit limit, Wording wording) {
        DropoutLimit.Reason reason = limit.reason();
        if (reason == null) {
            return wording.text("reason.dropout_separated");
        }
        String good = share(limit.gapLowPct(), wording);
        String failed = share(limit.gapHighPct(), wording);
        return reason == DropoutLimit.Reason.ONLY_FAILED_PASSES
                ? wording.text("reason." + reason.key(), failed)
                : wording.text("reason." + reason.key(), good, failed);
    }

    private static String share(@Nullable Double percent, Wording wording) {
        return percent == null ? "" : wording.numbers().plain(percent);
    }
}
