package slowproof.files.log;

import ch.randelshofer.fastdoubleparser.JavaDoubleParser;
import java.util.Locale;

/**
 * Reads the number in a cell. Short decimals, which is what loggers write, are read exactly by one division: up to
 * 15 digits fit a double, and so does a power of ten up to 22, so the quotient is the nearest double (Clinger's fast
 * case). All else goes to the general parser.
 */
final class CellNumber {
    private static final double[] POWERS = {
        1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16
    };

    /** Result for a cell that holds no number; a cell that says NaN is no number either. */
    static final double NONE = Double.NaN;

    private CellNumber() {}

    /**
     * Returns the number in a cell, or NaN when it is none, empty, infinite or too large.
     *
     * @param decimal decimal sign
     */
    static double parse(char[] text, int from, int length, char decimal) {
        int at = from;
        int end = from + length;
        while (at < end && blank(text[at])) {
            at++;
        }
        while (end > at && blank(text[end - 1])) {
            end--;
        }
        int start = at;
        if (at == end) {
            return NONE;
        }
        boolean negative = text[at] == '-' || text[at] == '\u2212';
        if (negative || text[at] == '+') {
            at++;
        }
        long digits = 0;
        int count = 0;
        int decimals = -1;
        for (; at < end; at++) {
            char c = text[at];
            if (c >= '0' && c <= '9') {
                digits = 10 * digits + (c - '0');
                // leading zeros take no room
                count += digits == 0 ? 0 : 1;
                if (decimals >= 0) {
                    decimals++;
                }
                if (count > 15 || decimals > 16) {
                    return general(text, start, end, decimal);
                }
            } else if (c == decimal && decimals < 0) {
                decimals = 0;
            } else {
                return general(text, start, end, decimal);
            }
        }
        if (at - start == (negative || text[start] == '+' ? 1 : 0) + (decimals >= 0 ? 1 : 0)) {
            return NONE;
        }
        double value = decimals > 0 ? digits / POWERS[decimals] : digits;
        return negative ? -value : value;
    }

    static double parse(String text, char decimal) {
        return parse(text.toCharArray(), 0, text.length(), decimal);
    }

    /** Returns true when a cell holds a number. */
    static boolean readable(String text, char decimal) {
        return !Double.isNaN(parse(text, decimal));
    }

    private static boolean blank(char c) {
        return c == ' ' || c == '\t' || c == '\u00a0';
    }

    private static double general(char[] text, int from, int to, char decimal) {
        char[] plain = new char[to - from];
        boolean point = false;
        for (int i = from; i < to; i++) {
            char c = text[i] == '\u2212' ? '-' : text[i];
            boolean allowed = (c >= '0' && c <= '9') || c == '+' || c == '-' || c == 'e' || c == 'E' || c == decimal;
            // the general parser also takes hexadecimal numbers, suffixes and words, which no logger means
            if (!allowed || (c == decimal && point)) {
                return NONE;
            }
            point |= c == decimal;
            plain[i - from] = c == decimal ? '.' : c;
        }
        try {
            double value = JavaDoubleParser.parseDouble(plain, 0, plain.length);
            return Double.isInfinite(value) ? NONE : value;
        } catch (NumberFormatException e) {
            return NONE;
        }
    }

    /** Returns 1 for the word true and 0 for false, upper and lower case alike; NaN for all else. */
    static double flag(String text) {
        return switch (text.strip().toLowerCase(Locale.ROOT)) {
            case "true" -> 1;
            case "false" -> 0;
            default -> NONE;
        };
    }

    /** Returns true for the words that mean a number which is none. */
    static boolean notFiniteWord(String text) {
        String word = text.strip().toLowerCase(Locale.ROOT);
        if (word.startsWith("-") || word.startsWith("+")) {
            word = word.substring(1);
        }
        return word.equals("nan")
                || word.equals("inf")
                || word.equals("infinity")
                || word.equals("1.#inf")
                || word.equals("1.#qnan")
                || word.equals("-1.#ind");
    }
}
