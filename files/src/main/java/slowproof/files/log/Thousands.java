package slowproof.files.log;

import java.util.regex.Pattern;

/** Numbers whose digits stand in threes, which no logger needs and spreadsheets like to write. */
final class Thousands {
    private static final Pattern BY_COMMA = threes(",", "\\.");
    private static final Pattern BY_POINT = threes("\\.", ",");

    private Thousands() {}

    private static Pattern threes(String between, String decimal) {
        // nobody writes a zero in front of thousands
        return Pattern.compile("[+\\-\u2212]?[1-9]\\d{0,2}(?:" + between + "\\d{3})+(?:" + decimal + "\\d*)?");
    }

    /** Returns true when commas may separate thousands in a cell, as in {@code 1,234} or {@code 1,234.5}. */
    static boolean byComma(String cell) {
        return BY_COMMA.matcher(cell.strip()).matches();
    }

    /** Returns true when points may separate thousands in a cell, as in {@code 1.234} or {@code 1.234,5}. */
    static boolean byPoint(String cell) {
        return BY_POINT.matcher(cell.strip()).matches();
    }
}
