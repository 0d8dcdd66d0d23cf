package slowproof.archive.desk;

import java.util.Locale;

/** What a card is. */
public enum CardKind {
    /** Somebody asked something. */
    QUESTION,
    /** Somebody sent something. */
    SAMPLE;

    /** Returns the word written in the archive, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
