package slowproof.files.in;

import java.util.List;
import slowproof.trial.Trial;
import slowproof.trial.note.Note;

/**
 * A trial with what its files were.
 *
 * @param trial the trial
 * @param sources every file that took part, the trial file first
 * @param notes how files were read, and slips that the trial confirms
 */
public record LoadedTrial(Trial trial, List<SourceFile> sources, List<Note> notes) {
    /** Copies the lists. */
    public LoadedTrial {
        sources = List.copyOf(sources);
        notes = List.copyOf(notes);
    }
}
