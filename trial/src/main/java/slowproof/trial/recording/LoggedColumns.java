package slowproof.trial.recording;

import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * A log as read: columns in units of this program, row by row as they stand in the source, nothing mended yet.
 *
 * @param source name of the source, as the user gave it
 * @param lines where each row stands in the source
 * @param timeS time in s
 * @param count counter reading in counts, or null
 * @param readingMm sensor's reading in mm, or null
 * @param channelA level of channel A, above 0.5 for high, or null
 * @param channelB level of channel B, above 0.5 for high, or null
 * @param referenceMm position of the reference in mm, or null
 * @param dropout share of dropout in each row, a ratio from 0 to 1, or null; NaN where unknown
 */
public record LoggedColumns(
        String source,
        RowLines lines,
        Column timeS,
        @Nullable Column count,
        @Nullable Column readingMm,
        @Nullable Column channelA,
        @Nullable Column channelB,
        @Nullable Column referenceMm,
        @Nullable Column dropout) {
    /** Checks that there is something to evaluate and that all columns are equally long. */
    public LoggedColumns {
        Objects.requireNonNull(source, "source");
        Objects.requireNonNull(lines, "lines");
        if ((channelA == null) != (channelB == null)) {
            throw new IllegalArgumentException("channels A and B go together");
        }
        int indications = (count == null ? 0 : 1) + (readingMm == null ? 0 : 1) + (channelA == null ? 0 : 1);
        if (indications > 1) {
            throw new IllegalArgumentException("one indication only: a count, a reading or two channels");
        }
        if (indications == 0 && referenceMm == null) {
            throw new IllegalArgumentException("neither an indication nor a reference");
        }
        for (Column column : new @Nullable Column[] {count, readingMm, channelA, channelB, referenceMm, dropout}) {
            if (column != null && column.size() != timeS.size()) {
                throw new IllegalArgumentException(
                        "columns of different length: " + column.size() + " and " + timeS.size() + " rows");
            }
        }
    }
}
