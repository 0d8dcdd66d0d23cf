package slowproof.files.out;

import java.util.Locale;

/** Texts as YAML scalars. */
public final class YamlText {
    private YamlText() {}

    /** Returns a text in double quotes that reads back to the same text. */
    public static String quoted(String text) {
        StringBuilder out = new StringBuilder("\"");
        text.codePoints().forEach(c -> {
            switch (c) {
                case '"' -> out.append("\\\"");
                case '\\' -> out.append("\\\\");
                case '\n' -> out.append("\\n");
                case '\r' -> out.append("\\r");
                case '\t' -> out.append("\\t");
                // ends of lines to a reader of YAML, and a mark that it drops
                case 0x2028, 0x2029, 0xfeff -> out.append(String.format(Locale.ROOT, "\\u%04x", c));
                default -> {
                    // YAML forbids other control characters but as escapes
                    if (Character.isISOControl(c)) {
                        out.append(String.format(Locale.ROOT, "\\x%02x", c));
                    } else {
                        out.appendCodePoint(c);
                    }
                }
            }
        });
        return out.append('"').toString();
    }
}
