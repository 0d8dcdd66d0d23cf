package slowproof.files.in;

import java.util.Collection;
import java.util.Locale;

/** Finds the known word that a misspelt one most likely means. */
final class Nearest {
    private Nearest() {}

    /**
     * Returns the known word with the fewest edits from the given one; the first in order among equals.
     *
     * @param word word as written
     * @param known at least one word
     */
    static String of(String word, Collection<String> known) {
        String best = "";
        int fewest = Integer.MAX_VALUE;
        for (String candidate : known) {
            int edits = edits(word.toLowerCase(Locale.ROOT), candidate);
            if (edits < fewest) {
                fewest = edits;
                best = candidate;
            }
        }
        return best;
    }

    /** Returns the Levenshtein distance. */
    static int edits(String from, String to) {
        int[] row = new int[to.length() + 1];
        for (int j = 0; j <= to.length(); j++) {
            row[j] = j;
        }
        for (int i = 1; i <= from.length(); i++) {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= to.length(); j++) {
                int replace = diagonal + (from.charAt(i - 1) == to.charAt(j - 1) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.min(replace, 1 + Math.min(row[j], row[j - 1]));
            }
        }
        return row[to.length()];
    }
}
