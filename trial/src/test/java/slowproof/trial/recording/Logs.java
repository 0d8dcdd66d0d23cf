package slowproof.trial.recording;

import org.jspecify.annotations.Nullable;

/** Makes logged columns of arrays, from line 2 of a log on. */
final class Logs {
    private Logs() {}

    /** Returns the log of a counter. */
    static LoggedColumns counts(
            double[] timeS, double[] count, double @Nullable [] referenceMm, double @Nullable [] dropout) {
        return new LoggedColumns(
                "log.csv",
                RowLines.from(2),
                Column.copyOf(timeS),
                Column.copyOf(count),
                null,
                null,
                null,
                referenceMm == null ? null : Column.copyOf(referenceMm),
                dropout == null ? null : Column.copyOf(dropout));
    }

    /** Returns the log of the levels of two channels. */
    static LoggedColumns levels(double[] timeS, double[] a, double[] b, double[] referenceMm) {
        return new LoggedColumns(
                "levels.csv",
                RowLines.from(2),
                Column.copyOf(timeS),
                null,
                null,
                Column.copyOf(a),
                Column.copyOf(b),
                Column.copyOf(referenceMm),
                null);
    }
}
