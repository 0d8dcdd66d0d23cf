package slowproof.wording;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;

/**
 * Writes numbers for readers: decimal sign of the language, true minus sign, no thousands separators. Rounds the
 * decimal form of a double half to even (ISO 80000-1:2009, annex B, rule A; from memory). A value that rounds to
 * zero has no sign.
 */
public final class Numbers {
    /** Minus sign of printed numbers (U+2212), as wide as a digit. */
    public static final char MINUS = '\u2212';

    private static final Numbers POINT = new Numbers('.');
    private static final Numbers COMMA = new Numbers(',');
    private static final int PLAIN_DIGITS = 4;

    private final char decimalSign;

    private Numbers(char decimalSign) {
        this.decimalSign = decimalSign;
    }

    /** Returns the formatter of a language: comma in German, else point. */
    public static Numbers of(Locale locale) {
        return Wording.isGerman(locale) ? COMMA : POINT;
    }

    /** Returns the decimal sign. */
    public char decimalSign() {
        return decimalSign;
    }

    /**
     * Returns the number of decimals that shows an uncertainty with two significant digits (JCGM 100:2008, 7.2.6).
     *
     * @param uncertainty in the unit that will be printed, not negative
     * @return decimals, negative when the last digit shown is a ten or more; 2 for an uncertainty of zero or one
     *     that is not finite
     */
    public static int decimalsFor(double uncertainty) {
        if (!(uncertainty > 0) || Double.isInfinite(uncertainty)) {
            return 2;
        }
        BigDecimal rounded = BigDecimal.valueOf(uncertainty).round(new MathContext(2, RoundingMode.HALF_EVEN));
        // a short number such as 0.5 has one digit only, and is shown as 0.50
        return rounded.scale() + 2 - rounded.precision();
    }

    /**
     * Returns a value rounded to so many decimals.
     *
     * @param value any finite value
     * @param decimals negative to round to tens, hundreds and so on
     */
    public String fixed(double value, int decimals) {
        BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_EVEN);
        return written(decimals < 0 ? rounded.setScale(0) : rounded);
    }

    /** Returns the same as {@link #fixed} with a plus sign before a positive value. */
    public String signed(double value, int decimals) {
        String text = fixed(value, decimals);
        return value > 0 && isNotZero(text) ? "+" + text : text;
    }

    /** Returns a value with at most four significant digits, all digits before the decimal sign, no trailing zeros. */
    public String plain(double value) {
        return plain(value, PLAIN_DIGITS);
    }

    /**
     * Returns a value with so many significant digits at most, all digits before the decimal sign, no trailing
     * zeros.
     */
    public String plain(double value, int digits) {
        if (!Double.isFinite(value)) {
            return Double.isNaN(value) ? "?" : value > 0 ? "\u221e" : MINUS + "\u221e";
        }
        BigDecimal exact = BigDecimal.valueOf(value);
        int whole = exact.precision() - exact.scale();
        return stripped(exact.round(new MathContext(Math.max(digits, whole), RoundingMode.HALF_EVEN)));
    }

    /** Returns a value rounded to at most so many decimals, without trailing zeros. */
    public String upTo(double value, int decimals) {
        return stripped(BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_EVEN));
    }

    /** Returns a whole number. */
    public String whole(long value) {
        return value < 0 ? MINUS + Long.toString(value).substring(1) : Long.toString(value);
    }

    /**
     * Returns a probability in percent without its unit. Where whole percents would hide on which side of 5 %, 95
     * %, 0 or 100 % it lies, more is shown: "94.6", "&gt; 99.9".
     *
     * @param probability 0 to 1
     */
    public String probabilityPercent(double probability) {
        double percent = 100 * probability;
        if (percent > 99.9) {
            return "> " + fixed(99.9, 1);
        }
        if (percent < 0.1) {
            return "< " + fixed(0.1, 1);
        }
        boolean close = percent > 98.5 || percent < 1.5 || Math.abs(percent - 95) < 1 || Math.abs(percent - 5) < 1;
        if (!close) {
            return fixed(percent, 0);
        }
        // towards the undecided side, so that a figure short of a threshold never shows as the threshold
        RoundingMode inwards = percent > 50 ? RoundingMode.DOWN : RoundingMode.UP;
        return written(BigDecimal.valueOf(percent).setScale(1, inwards));
    }

    private String stripped(BigDecimal value) {
        BigDecimal stripped = value.signum() == 0 ? BigDecimal.ZERO : value.stripTrailingZeros();
        return written(stripped.scale() < 0 ? stripped.setScale(0) : stripped);
    }

    private String written(BigDecimal value) {
        String plain = value.abs().toPlainString();
        String text = decimalSign == '.' ? plain : plain.replace('.', decimalSign);
        return value.signum() < 0 ? MINUS + text : text;
    }

    private static boolean isNotZero(String text) {
        for (int i = 0; i < text.length(); i++) {
            if (text.charAt(i) >= '1' && text.charAt(i) <= '9') {
                return true;
            }
        }
        return false;
    }
}
