package slowproof.files.cache;

import org.jspecify.annotations.Nullable;

/**
 * Text that tells what something was made with, one thing a line, for the name under which it is kept. Records are taken
 * apart by whoever adds them: what Java itself says of a record takes 30 ms the first time.
 */
public final class KeyText {
    private final StringBuilder text = new StringBuilder();

    /** Adds one thing: a text, a number, one of a list, or nothing. */
    public KeyText add(@Nullable Object thing) {
        String words = String.valueOf(thing);
        // its length tells a text from nothing, and where it ends
        text.append(thing == null ? -1 : words.length())
                .append(':')
                .append(words)
                .append('\n');
        return this;
    }

    @Override
    public String toString() {
        return text.toString();
    }
}
