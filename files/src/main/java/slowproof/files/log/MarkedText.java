package slowproof.files.log;

import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Tells text in which no row of a log was found, and which is in a form of its own: a page of the web, or JSON. */
final class MarkedText {
    private static final Pattern MARKUP = Pattern.compile("<(?:!doctype|\\?xml|!--|[a-z][a-z0-9]*[\\s>])");
    private static final Pattern JSON = Pattern.compile("(?:\\{\\s*\"|\\[\\s*[\\[{\"\\d-])");

    private MarkedText() {}

    /** Returns what a text is, judged by how it begins; null when it may be anything. */
    static @Nullable ForeignKind kind(String beginning) {
        String text = beginning.strip().toLowerCase(Locale.ROOT);
        if (MARKUP.matcher(text).lookingAt()) {
            return ForeignKind.MARKUP;
        }
        return JSON.matcher(text).lookingAt() ? ForeignKind.JSON : null;
    }
}
