package slowproof.files.log;

import java.util.List;
import slowproof.trial.note.Note;
import slowproof.trial.recording.Recording;

/**
 * A log as read.
 *
 * @param recording the recording
 * @param readAs how the file was understood
 * @param sha256 SHA-256 of the file's bytes, 64 hexadecimal digits
 * @param notes remarks on the reading; those on the recording itself are with it
 */
public record LogResult(Recording recording, ReadAs readAs, String sha256, List<Note> notes) {
    /** Copies the list. */
    public LogResult {
        notes = List.copyOf(notes);
    }
}
