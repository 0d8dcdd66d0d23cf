package slowproof.files.out;

import org.jspecify.annotations.Nullable;
import slowproof.trial.dropout.DropoutLimit;
import slowproof.wording.Wording;

/** Words of a dropout limit. */
final class DropoutWords {
    private DropoutWords() {}

    /** Returns the status that files promise: found, whether the classes overlap or not, or not learnable. */
    static String status(DropoutLimit limit) {
        return limit.status() == DropoutLimit.Status.FOUND_SEPARATED
                ? DropoutLimit.Status.FOUND.key()
                : limit.status().key();
    }

    /** Returns why a figure of the limit is absent. */
    static String why(DropoutLimit limit, Wording wording) {
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
