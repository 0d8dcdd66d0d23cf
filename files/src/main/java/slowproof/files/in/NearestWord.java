package slowproof.files.in;

import java.util.Collection;

/** Finds the known word that a misspelt one most likely means, for messages elsewhere. */
public final class NearestWord {
    private NearestWord() {}

    /** Returns the known word with the fewest edits from the given one; {@code known} has at least one. */
    public static String of(String word, Collection<String> known) {
        return Nearest.of(word, known);
    }
}
