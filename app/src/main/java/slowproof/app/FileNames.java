package slowproof.app;

import java.util.Locale;

/** File names made of a person's words. */
public final class FileNames {
    private static final int LONGEST = 60;

    private FileNames() {}

    /**
     * Returns a name that every file system and shell takes: plain letters, digits and hyphens.
     *
     * @param words words of a person
     * @param otherwise the name when nothing is left of the words
     */
    public static String of(String words, String otherwise) {
        String plain = words.toLowerCase(Locale.ROOT)
                .replace("ä", "ae")
                .replace("ö", "oe")
                .replace("ü", "ue")
                .replace("ß", "ss")
                .replaceAll("[^a-z0-9]+", "-")
                .replaceAll("^-|-$", "");
        String name = plain.length() > LONGEST ? plain.substring(0, LONGEST) : plain;
        return name.isEmpty() ? otherwise : name;
    }
}
