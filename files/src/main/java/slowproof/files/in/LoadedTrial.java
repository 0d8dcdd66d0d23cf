package slowproof.files.in;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import slowproof.trial.Trial;
import slowproof.trial.note.Note;

/**
 * A trial with what its files were.
 *
 * @param trial the trial
 * @param sources every file that took part, the trial file first
 * @param recordings how each recording was understood
 * @param notes how files were read, and slips that the trial confirms
 */
public record LoadedTrial(Trial trial, List<SourceFile> sources, List<RecordingRead> recordings, List<Note> notes) {
    private static final long LONG = 200_000;

    /** Copies the lists. */
    public LoadedTrial {
        sources = List.copyOf(sources);
        recordings = List.copyOf(recordings);
        notes = List.copyOf(notes);
    }

    /** Returns true when one of its recordings is long, so that what comes of it is worth keeping. */
    public boolean hasLongRecording() {
        return recordings.stream().anyMatch(recording -> recording.cut().rows() >= LONG);
    }

    /** Returns the same trial with the files of a line as well. */
    public LoadedTrial with(LoadedLine line) {
        List<SourceFile> all = new ArrayList<>(sources);
        all.addAll(line.sources());
        return new LoadedTrial(trial, all, recordings, notes);
    }

    /**
     * Returns the SHA-256 of everything that was set: names and fingerprints of all files that took part, in order.
     * Two evaluations with the same one had the same input.
     */
    public String settingsSha256() {
        StringBuilder all = new StringBuilder();
        for (SourceFile source : sources) {
            // the trial file counts by its bytes, not by its name
            all.append(all.isEmpty() ? "" : source.name())
                    .append(' ')
                    .append(source.sha256())
                    .append('\n');
        }
        return RawFile.sha256(all.toString().getBytes(StandardCharsets.UTF_8));
    }
}
