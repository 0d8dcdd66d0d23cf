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
        text.append(thing).append('\n');
        return this;
    }

    @Override
    public String toString() {
        return text.toString();
    }
}
