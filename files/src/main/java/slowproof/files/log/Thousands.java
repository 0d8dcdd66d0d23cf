package slowproof.files.log;

import java.util.regex.Pattern;

/** Numbers whose digits stand in threes, which no logger needs and spreadsheets like to write. */
final class Thousands {
    // nobody writes a zero in front of thousands
    private static final String THREES = "[+\\-\u2212]?[1-9]\\d{0,2}(?:%1$s\\d{3})+(?:%2$s\\d*)?";
    private static final Pattern BY_COMMA = Pattern.compile(String.format(THREES, ",", "\\."));
    private static final Pattern BY_POINT = Pattern.compile(String.format(THREES, "\\.", ","));

    private Thousands() {}

    /** Returns true when commas may separate thousands in a cell, as in {@code 1,234} or {@code 1,234.5}. */
    static boolean byComma(String cell) {
        return BY_COMMA.matcher(cell.strip()).matches();
    }

    /** Returns true when points may separate thousands in a cell, as in {@code 1.234} or {@code 1.234,5}. */
    static boolean byPoint(String cell) {
        return BY_POINT.matcher(cell.strip()).matches();
    }
}
