package slowproof.files.log;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.note.Note;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.RowLines;

/**
 * Columns of a log as they stand in it, in the units used inside.
 *
 * @param readAs how the file was understood
 * @param columns numbers in the order of the columns of {@code readAs}; NaN where a cell is empty
 * @param lines where each row stands
 * @param sha256 SHA-256 of the file's bytes
 * @param notes remarks on the reading
 */
record LogRead(ReadAs readAs, List<Column> columns, RowLines lines, String sha256, List<Note> notes) {
    /** Returns the column that holds something, or null. */
    @Nullable
    Column column(ColumnRole role) {
        for (int k = 0; k < columns.size(); k++) {
            if (readAs.columns().get(k).role() == role) {
                return columns.get(k);
            }
        }
        return null;
    }

    /**
     * Returns the place of a column in the file, from 1.
     *
     * @throws IllegalArgumentException if there is none
     */
    ReadAs.Taken taken(ColumnRole role) {
        return readAs.columns().stream()
                .filter(taken -> taken.role() == role)
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no column " + role.key()));
    }
}
