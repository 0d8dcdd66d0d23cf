package slowproof.archive;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** The words of a filter as patterns for {@code like ? escape '!'}. */
public final class LikeWords {
    private LikeWords() {}

    /** Returns a pattern for each word, in lower case, that fits where the word stands; none for a blank text. */
    public static List<String> patterns(String words) {
        return Arrays.stream(words.strip().toLowerCase(Locale.ROOT).split("\\s+"))
                .filter(word -> !word.isEmpty())
                .map(word -> "%" + word.replace("!", "!!").replace("%", "!%").replace("_", "!_") + "%")
                .toList();
    }
}
