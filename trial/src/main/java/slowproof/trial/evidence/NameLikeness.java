package slowproof.trial.evidence;

import java.text.Normalizer;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;

/**
 * How alike two names of materials are, from 0 (nothing in common) to 1 (the same words): twice the shared pairs of
 * neighbouring letters over all pairs (coefficient of L. R. Dice, Ecology 26 (1945) 297), taken word by word, so that
 * the order of words does not count. Case, accents and punctuation do not count either.
 */
public final class NameLikeness {
    private NameLikeness() {}

    /** Returns a name as it is compared and searched: lower case, without accents, words parted by one space. */
    public static String key(String name) {
        String plain = Normalizer.normalize(name.toLowerCase(Locale.ROOT).replace("\u00df", "ss"), Normalizer.Form.NFD)
                .replaceAll("\\p{M}+", "");
        return plain.replaceAll("[^\\p{L}\\p{N}]+", " ").strip();
    }

    /** Returns the likeness of two names, 0 to 1; of two empty names 0, since nothing is known of either. */
    public static double of(String one, String other) {
        Map<String, Integer> left = pairs(key(one));
        Map<String, Integer> right = pairs(key(other));
        int all = count(left) + count(right);
        if (all == 0) {
            return 0;
        }
        int shared = 0;
        for (Map.Entry<String, Integer> pair : left.entrySet()) {
            shared += Math.min(pair.getValue(), right.getOrDefault(pair.getKey(), 0));
        }
        return 2.0 * shared / all;
    }

    private static Map<String, Integer> pairs(String key) {
        Map<String, Integer> pairs = new HashMap<>();
        for (String word : key.split(" ", -1)) {
            if (word.length() == 1) {
                pairs.merge(word, 1, Integer::sum);
            }
            for (int i = 0; i + 1 < word.length(); i++) {
                pairs.merge(word.substring(i, i + 2), 1, Integer::sum);
            }
        }
        return pairs;
    }

    private static int count(Map<String, Integer> pairs) {
        return pairs.values().stream().mapToInt(Integer::intValue).sum();
    }
}
