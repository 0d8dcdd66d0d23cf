package slowproof.report.answer;

/** Writes XHTML; every text that goes in is escaped. */
final class Xml {
    private final StringBuilder out = new StringBuilder();

    /** Writes a tag as it stands. */
    Xml tag(String markup) {
        out.append(markup);
        return this;
    }

    Xml text(String text) {
        out.append(escaped(text));
        return this;
    }

    /** Writes an element with text in it. */
    Xml element(String opening, String text, String name) {
        return tag(opening).text(text).tag("</" + name + ">\n");
    }

    /** Escapes for text and attributes; characters that XML cannot hold become the replacement character. */
    static String escaped(String text) {
        StringBuilder safe = new StringBuilder(text.length() + 16);
        text.codePoints().forEach(c -> {
            switch (c) {
                case '&' -> safe.append("&amp;");
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '"' -> safe.append("&quot;");
                case '\'' -> safe.append("&#39;");
                default -> safe.appendCodePoint(allowed(c) ? c : 0xfffd);
            }
        });
        return safe.toString();
    }

    /** Returns a string of a style sheet, quotes included; safe inside a style element. */
    static String styleString(String text) {
        StringBuilder safe = new StringBuilder("\"");
        text.codePoints().forEach(c -> {
            if (c == '"' || c == '\\' || c == '<' || c == '>' || c == '&' || c < 0x20) {
                safe.append(String.format("\\%06x", c < 0x20 ? ' ' : c));
            } else {
                safe.appendCodePoint(allowed(c) ? c : 0xfffd);
            }
        });
        return safe.append('"').toString();
    }

    /** XML 1.0, 2.2. */
    private static boolean allowed(int c) {
        return c == '\t'
                || c == '\n'
                || (c >= 0x20 && c <= 0xd7ff)
                || (c >= 0xe000 && c <= 0xfffd)
                || (c >= 0x10000 && c <= 0x10ffff);
    }

    @Override
    public String toString() {
        return out.toString();
    }
}
