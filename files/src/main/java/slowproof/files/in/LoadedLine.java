package slowproof.files.in;

import java.util.List;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.line.Line;
import slowproof.trial.note.Note;

/**
 * A line with what its files were.
 *
 * @param line the line
 * @param sources every file that took part, the line file first
 * @param materialAt where the material is written, or would have to be
 * @param notes how a speed log was read, and remarks on it
 */
public record LoadedLine(Line line, List<SourceFile> sources, SourcePosition materialAt, List<Note> notes) {
    /** Copies the list. */
    public LoadedLine {
        sources = List.copyOf(sources);
        notes = List.copyOf(notes);
    }
}
