package slowproof.files.in;

import java.util.List;
import slowproof.trial.line.Line;
import slowproof.trial.note.Note;

/**
 * A line with what its files were.
 *
 * @param file the line file as it was named, for messages
 * @param line the line
 * @param sources every file that took part, the line file first
 * @param notes how a speed log was read, and remarks on it
 */
public record LoadedLine(String file, Line line, List<SourceFile> sources, List<Note> notes) {
    /** Copies the list. */
    public LoadedLine {
        sources = List.copyOf(sources);
        notes = List.copyOf(notes);
    }
}
