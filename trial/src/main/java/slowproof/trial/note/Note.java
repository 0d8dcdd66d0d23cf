package slowproof.trial.note;

import java.util.List;
import java.util.Objects;

/**
 * A remark on a result, as data; module wording makes the sentence of it.
 *
 * @param code what is remarked
 * @param where what it speaks of: a pass id, a series, a condition, a material or a file; empty for the whole trial
 * @param arguments what the sentence needs, in the order of the message: text, numbers or quantities
 */
public record Note(NoteCode code, String where, List<Object> arguments) {
    /** Checks and copies the parts. */
    public Note {
        Objects.requireNonNull(code, "code");
        Objects.requireNonNull(where, "where");
        arguments = List.copyOf(arguments);
    }

    /** Returns a note with the given arguments. */
    public static Note of(NoteCode code, String where, Object... arguments) {
        return new Note(code, where, List.of(arguments));
    }
}
