package slowproof.files.log;

/**
 * Tells whether the decimal sign of a column of numbers may as well separate thousands: 900 above 1.005 can be nine
 * hundred and one thousand and five. It may where whole numbers below a thousand stand beside numbers whose sign has
 * three digits behind it, and nothing in the column can only be a decimal: a zero in front (0.512), other than three decimals
 * (1.25), or four digits and more that are not cut in threes (1234).
 */
public final class ThousandsDoubt {
    private final char sign;
    private boolean zero;
    private boolean whole;
    private boolean proven;
    private long line;
    private String cell = "";

    /** Starts without any cell; {@code sign} is the decimal sign of the table. */
    public ThousandsDoubt(char sign) {
        this.sign = sign;
    }

    /** Takes note of a cell, which stands in that line of the file; what is no number tells nothing. */
    public void see(String text, long at) {
        String number = text.strip();
        if (proven || !CellNumber.readable(number, sign)) {
            return;
        }
        int from = number.startsWith("-") || number.startsWith("+") || number.startsWith("\u2212") ? 1 : 0;
        int point = number.indexOf(sign);
        int before = (point < 0 ? number.length() : point) - from;
        int behind = point < 0 ? 0 : number.length() - point - 1;
        boolean plain = number.chars().skip(from).allMatch(c -> c == sign || (c >= '0' && c <= '9'));
        if (point < 0 && plain && before <= 3) {
            boolean nothing = CellNumber.parse(number, sign) == 0;
            zero |= nothing;
            whole |= !nothing;
        } else if (point >= 0 && plain && before > 0 && before <= 3 && behind == 3 && number.charAt(from) != '0') {
            if (cell.isEmpty()) {
                cell = number;
                line = at;
            }
        } else {
            proven |= point >= 0 || plain;
        }
    }

    /** Returns true when nothing tells decimals from thousands. */
    public boolean any() {
        return whole && !proven && !cell.isEmpty();
    }

    /** Returns true when a plain zero is the only sort of whole number, which programs and people write among decimals too. */
    public boolean onlyByZeros() {
        return zero && !whole && !proven && !cell.isEmpty();
    }

    /** Returns true when a number can only be a decimal. */
    public boolean told() {
        return proven;
    }

    /** Returns the first number that can be read in two ways, empty when there is none. */
    public String cell() {
        return cell;
    }

    /** Returns its line, from 1. */
    public long line() {
        return line;
    }
}
