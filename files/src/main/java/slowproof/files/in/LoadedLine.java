package slowproof.files.in;

import java.util.List;
import slowproof.trial.line.Line;

/**
 * A line with what its files were.
 *
 * @param file the line file as it was named, for messages
 * @param line the line
 * @param sources every file that took part, the line file first
 */
public record LoadedLine(String file, Line line, List<SourceFile> sources) {
    /** Copies the list. */
    public LoadedLine {
        sources = List.copyOf(sources);
    }
}
