package slowproof.trial.input;

import java.util.Objects;

/**
 * Where in a source something was found, as an editor shows it.
 *
 * @param file name of the file, as the user gave it
 * @param line line counted from 1, comments and header included; 0 when the whole file is meant
 * @param column column counted from 1: the field's number in a table, the character in YAML; 0 when the whole line is meant
 * @param field heading or key of the place; empty when there is none
 */
public record SourcePosition(String file, long line, int column, String field) {
    /** Checks the parts. */
    public SourcePosition {
        Objects.requireNonNull(file, "file");
        Objects.requireNonNull(field, "field");
        if (line < 0 || column < 0) {
            throw new IllegalArgumentException("line and column count from 0: line " + line + ", column " + column);
        }
    }

    /** Returns the position of a whole file. */
    public static SourcePosition ofFile(String file) {
        return new SourcePosition(file, 0, 0, "");
    }
}
