package slowproof.trial.recording;

import java.util.Locale;
import java.util.Objects;

/**
 * A place where the rows of a recording do not follow on one another. Nothing is ever interpolated across it.
 *
 * @param cause what happened
 * @param row first row after it, counted from 0
 * @param line line of that row in the source, counted from 1
 * @param fromS time of the last row before it, in s
 * @param toS time of the first row after it, in s
 * @param splits true when the recording is cut here; false when only rows are missing and a pass may span it, flagged
 */
public record Break(Cause cause, int row, long line, double fromS, double toS, boolean splits) {
    /** Why rows do not follow on one another. */
    public enum Cause {
        /** No rows for much longer than the usual interval. */
        GAP,
        /** Rows are there, but a needed value in them is not, for much longer than the usual interval; the share of dropout is known. */
        NO_VALUE,
        /** The clock jumped back. */
        CLOCK_BACK,
        /** The indication made a step that the reference did not: the counter was set anew or lost its place. */
        COUNTER_STEP,
        /** The reference made a step that the indication did not: its axis was set to zero, or its angle started again. */
        REFERENCE_STEP,
        /** Both stepped to about zero within one row, faster than anything moves: both were set to zero together. */
        BOTH_ZEROED;

        /** Returns the cause as written in files and message bundles, lower_snake_case. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** Returns true when nothing is known of the positions in between, for want of rows or of values in them. */
    public boolean missing() {
        return cause == Cause.GAP || cause == Cause.NO_VALUE;
    }

    /** Checks the parts. */
    public Break {
        Objects.requireNonNull(cause, "cause");
        if (row < 1) {
            throw new IllegalArgumentException("a break lies between two rows, found row " + row);
        }
    }
}
