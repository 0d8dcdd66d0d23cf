package slowproof.trial.findings;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Limit;

/**
 * The largest dropout share up to which a pass may be trusted, as far as the passes of one material tell. On a bench
 * dropout share and speed go together, so it holds for the same cause only.
 *
 * @param status found or not learnable
 * @param limitPercent the limit in percent: the largest share of a pass inside the error limit, when all failed passes
 *     lie above it; or null
 * @param nextPercent smallest share of a failed pass in percent, or null when none failed
 * @param reason why it cannot be learned, or null
 * @param seenPercent the share that the reason speaks of in percent, or null
 */
public record DropoutLimit(
        Status status,
        @Nullable Double limitPercent,
        @Nullable Double nextPercent,
        @Nullable ReasonCode reason,
        @Nullable Double seenPercent) {

    /** Kinds of answer. */
    public enum Status {
        FOUND("found"),
        NOT_LEARNABLE("not learnable");

        private final String key;

        Status(String key) {
            this.key = key;
        }

        /** Returns the status as written in files. */
        public String key() {
            return key;
        }
    }

    /**
     * Returns the limit of one material.
     *
     * @param passes passes of one material that count
     * @param limit error limit, or null
     */
    static DropoutLimit of(List<Pass> passes, @Nullable Limit limit) {
        if (limit == null) {
            return notLearnable(ReasonCode.NO_LIMIT, null);
        }
        double largestGood = Double.NEGATIVE_INFINITY;
        double smallestBad = Double.POSITIVE_INFINITY;
        for (Pass pass : passes) {
            Double share = pass.dropoutPercent();
            if (share == null) {
                continue;
            }
            if (limit.holds(pass.exactErrorMm(), pass.exactLengthMm(), pass.exactLengthMm(), 1)) {
                largestGood = Math.max(largestGood, share);
            } else {
                smallestBad = Math.min(smallestBad, share);
            }
        }
        if (Double.isInfinite(largestGood) && Double.isInfinite(smallestBad)) {
            return notLearnable(ReasonCode.NO_SHARES, null);
        }
        if (Double.isInfinite(smallestBad)) {
            return notLearnable(ReasonCode.NO_PASS_FAILED, largestGood);
        }
        if (Double.isInfinite(largestGood)) {
            return notLearnable(ReasonCode.ONLY_FAILED_PASSES, smallestBad);
        }
        if (smallestBad <= largestGood) {
            return notLearnable(ReasonCode.SHARES_OVERLAP, smallestBad);
        }
        return new DropoutLimit(Status.FOUND, largestGood, smallestBad, null, null);
    }

    private static DropoutLimit notLearnable(ReasonCode reason, @Nullable Double seen) {
        return new DropoutLimit(Status.NOT_LEARNABLE, null, null, reason, seen);
    }
}
