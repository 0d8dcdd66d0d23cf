package slowproof.archive.typed;

import java.util.Locale;

/** The decimal mark a person uses. */
public enum DecimalMark {
    DOT('.'),
    COMMA(',');

    private final char mark;

    DecimalMark(char mark) {
        this.mark = mark;
    }

    /** Returns the character. */
    public char mark() {
        return mark;
    }

    char other() {
        return this == DOT ? ',' : '.';
    }

    /** Returns the word written in the archive. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Returns the mark of a written word, the dot when it is none. */
    public static DecimalMark of(String key) {
        return key.equals("comma") ? COMMA : DOT;
    }
}
