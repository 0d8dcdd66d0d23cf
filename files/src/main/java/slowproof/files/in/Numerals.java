package slowproof.files.in;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Reads one written number, strictly: a sign, digits, one decimal sign, an exponent; nothing is guessed. */
final class Numerals {
    /** The text is a number word such as NaN or infinity. */
    static final class NotFiniteException extends NumberFormatException {
        private static final long serialVersionUID = 1L;

        NotFiniteException(String text) {
            super(text);
        }
    }

    private Numerals() {}

    /**
     * Returns the number.
     *
     * @param text text, spaces around it allowed; a typographic minus counts as one
     * @param decimalSign '.' or ','
     * @throws NotFiniteException if it is NaN, infinite or too large
     * @throws NumberFormatException if it is no number
     */
    static double parse(String text, char decimalSign) {
        String plain = plain(text, decimalSign);
        if (plain == null) {
            String word = text.strip().toLowerCase(Locale.ROOT);
            while (word.startsWith("-") || word.startsWith("+") || word.startsWith(".")) {
                word = word.substring(1);
            }
            if (word.equals("nan") || word.equals("inf") || word.equals("infinity")) {
                throw new NotFiniteException(text);
            }
            throw new NumberFormatException(text);
        }
        double value = Double.parseDouble(plain);
        if (Double.isInfinite(value)) {
            throw new NotFiniteException(text);
        }
        return value;
    }

    /** Tells whether a text is a number with this decimal sign. */
    static boolean readable(String text, char decimalSign) {
        return plain(text, decimalSign) != null;
    }

    /**
     * Returns how many decimals a written number has, as digits after the sign less its exponent, at least 0.
     *
     * @param text a readable number
     */
    static int decimals(String text, char decimalSign) {
        String plain = plain(text, decimalSign);
        if (plain == null) {
            return 0;
        }
        int exponentAt = Math.max(plain.indexOf('e'), plain.indexOf('E'));
        String mantissa = exponentAt < 0 ? plain : plain.substring(0, exponentAt);
        int exponent = exponentAt < 0
                ? 0
                : Integer.parseInt(plain.substring(exponentAt + 1).replace("+", ""));
        int point = mantissa.indexOf('.');
        return Math.max(0, (point < 0 ? 0 : mantissa.length() - point - 1) - exponent);
    }

    private static @Nullable String plain(String text, char decimalSign) {
        StringBuilder out = new StringBuilder();
        boolean digits = false;
        boolean point = false;
        boolean exponent = false;
        int exponentDigits = 0;
        boolean signAllowed = true;
        String stripped = text.strip();
        for (int i = 0; i < stripped.length(); i++) {
            char c = stripped.charAt(i);
            if (c >= '0' && c <= '9') {
                digits = true;
                signAllowed = false;
                exponentDigits += exponent ? 1 : 0;
                out.append(c);
            } else if (c == decimalSign && !point && !exponent) {
                point = true;
                signAllowed = false;
                out.append('.');
            } else if ((c == '-' || c == '+' || c == '\u2212') && signAllowed) {
                signAllowed = false;
                out.append(c == '+' ? '+' : '-');
            } else if ((c == 'e' || c == 'E') && digits && !exponent) {
                exponent = true;
                digits = false;
                signAllowed = true;
                out.append('e');
            } else {
                return null;
            }
        }
        return digits && out.length() < 60 && exponentDigits < 4 ? out.toString() : null;
    }
}
