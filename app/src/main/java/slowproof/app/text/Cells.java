package slowproof.app.text;

/** Measures text as a terminal shows it. */
final class Cells {
    private Cells() {}

    /** Returns the columns that a text takes: two for wide East Asian characters, none for combining marks. */
    static int width(String text) {
        int width = 0;
        for (int i = 0; i < text.length(); ) {
            int c = text.codePointAt(i);
            width += width(c);
            i += Character.charCount(c);
        }
        return width;
    }

    private static int width(int c) {
        if (c < 0x300) {
            return 1;
        }
        int type = Character.getType(c);
        if (type == Character.NON_SPACING_MARK || type == Character.ENCLOSING_MARK || type == Character.FORMAT) {
            return 0;
        }
        boolean wide = (c >= 0x1100 && c <= 0x115f)
                || (c >= 0x2e80 && c <= 0xa4cf)
                || (c >= 0xac00 && c <= 0xd7a3)
                || (c >= 0xf900 && c <= 0xfaff)
                || (c >= 0xff00 && c <= 0xff60)
                || c >= 0x1f300;
        return wide ? 2 : 1;
    }

    static String spaces(int count) {
        return " ".repeat(Math.max(0, count));
    }
}
