package slowproof.files.log;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.List;

/**
 * Parses whole lines of a plain log from bytes, block after block into the same arrays. Digits are taken eight at a
 * time: their bytes are one long, in which a few multiplications add up tens, hundreds and thousands at once.
 */
final class PlainBlock {
    /** Bytes behind the lines that may be looked at, though nothing is made of them. */
    static final int SLACK = 16;

    static final VarHandle EIGHT = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);
    private static final long[] TENS = {1, 10, 100, 1000, 10_000, 100_000, 1_000_000, 10_000_000};
    static final double[] POWERS = {1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};

    private final byte separator;
    private final byte decimal;
    private final byte comment;
    private final int[] placeOf;
    private final Target[] targets;

    /** True for columns whose numbers are taken as they stand. */
    private final boolean[] plain;

    private final RowShape shape;

    private final double[][] columns;
    private byte[] text = new byte[0];
    private int rows;
    private int at;

    /** Prepares for logs of a layout; {@code rowsAtFirst} is the room to begin with. */
    PlainBlock(Layout layout, List<Target> targets, int rowsAtFirst) {
        this.separator = (byte) layout.separator();
        this.decimal = (byte) layout.decimal();
        this.comment = layout.comment() < 128 ? (byte) layout.comment() : 0;
        this.targets = targets.toArray(new Target[0]);
        placeOf = new int[layout.cells()];
        Arrays.fill(placeOf, -1);
        plain = new boolean[this.targets.length];
        for (int k = 0; k < this.targets.length; k++) {
            placeOf[this.targets[k].index()] = k;
            plain[k] = this.targets[k].asItStands();
        }
        shape = new RowShape(separator, decimal, comment, placeOf);
        columns = new double[this.targets.length][Math.max(rowsAtFirst, 16)];
    }

    int rows() {
        return rows;
    }

    /** Returns the numbers of a target, of which the first {@link #rows} are meant; overwritten by the next block. */
    double[] column(int target) {
        return columns[target];
    }

    /**
     * Parses lines.
     *
     * @param bytes text, {@link #SLACK} bytes longer than the lines at least
     * @param start first byte of the first line
     * @param end byte behind the last line, which ends with a line feed
     * @return false when anything is out of the ordinary; what was read is of no use then
     */
    boolean parse(byte[] bytes, int start, int end) {
        text = bytes;
        at = start;
        rows = 0;
        while (at < end) {
            if (rows == columns[0].length) {
                for (int k = 0; k < columns.length; k++) {
                    columns[k] = Arrays.copyOf(columns[k], rows + (rows >> 1));
                }
            }
            int taken = shape.take(bytes, at, end, columns, rows);
            if (taken > 0) {
                at += taken * shape.rowLength();
            } else {
                int first = at;
                if (!line()) {
                    return false;
                }
                shape.learn(bytes, first);
                taken = 1;
            }
            if (!meant(taken)) {
                return false;
            }
            rows += taken;
        }
        return true;
    }

    /** Makes what is meant of the numbers in the next rows; false when one of them cannot be. */
    private boolean meant(int taken) {
        for (int k = 0; k < columns.length; k++) {
            if (!plain[k] && !meant(targets[k], columns[k], taken)) {
                return false;
            }
            if (targets[k].role() == ColumnRole.COUNT && !whole(columns[k], taken)) {
                return false;
            }
        }
        return true;
    }

    private boolean whole(double[] counts, int taken) {
        for (int row = rows; row < rows + taken; row++) {
            // cheaper than rounding, and no counter goes further than a long
            if (counts[row] != (long) counts[row]) {
                return false;
            }
        }
        return true;
    }

    private boolean meant(Target target, double[] numbers, int taken) {
        double before = Double.NaN;
        double meant = 0;
        for (int row = rows; row < rows + taken; row++) {
            // flags, levels and shares seldom change
            if (numbers[row] != before) {
                before = numbers[row];
                meant = target.value(before);
                if (!target.permitted(meant)) {
                    return false;
                }
            }
            numbers[row] = meant;
        }
        return true;
    }

    private boolean line() {
        byte first = text[at];
        if (first == comment || first == '\n' || first == '\r') {
            return false;
        }
        int last = placeOf.length - 1;
        for (int cell = 0; cell < last; cell++) {
            if (!cell(placeOf[cell]) || text[at++] != separator) {
                return false;
            }
        }
        if (!cell(placeOf[last])) {
            return false;
        }
        if (text[at] == '\r') {
            at++;
        }
        return text[at++] == '\n';
    }

    private boolean cell(int place) {
        if (place < 0) {
            return skip();
        }
        double value = number();
        columns[place][rows] = value;
        return !Double.isNaN(value);
    }

    /** Passes over a cell that nobody wants; quotes might hide a separator. */
    private boolean skip() {
        while (true) {
            byte c = text[at];
            if (c == separator || c == '\n' || c == '\r') {
                return true;
            }
            if (c == '"') {
                return false;
            }
            at++;
        }
    }

    /** Reads a short decimal as {@link CellNumber} does; longer ones go there. NaN when it is no number. */
    private double number() {
        int start = at;
        boolean negative = text[at] == '-';
        int here = negative ? at + 1 : at;
        long eight = (long) EIGHT.get(text, here) ^ 0x3030303030303030L;
        int count = digits(eight);
        long digits = number(eight, count);
        here += count;
        if (count == 8) {
            eight = (long) EIGHT.get(text, here) ^ 0x3030303030303030L;
            int more = digits(eight);
            if (more == 8) {
                return general(start);
            }
            digits = digits * TENS[more] + number(eight, more);
            count += more;
            here += more;
        }
        int decimals = 0;
        if (text[here] == decimal) {
            eight = (long) EIGHT.get(text, ++here) ^ 0x3030303030303030L;
            decimals = digits(eight);
            if (decimals == 8) {
                return general(start);
            }
            digits = digits * TENS[decimals] + number(eight, decimals);
            here += decimals;
        }
        byte behind = text[here];
        int seen = count + decimals;
        if (seen == 0 || seen > 15 || (behind != separator && behind != '\n' && behind != '\r')) {
            return general(start);
        }
        at = here;
        // both are exact, so the quotient is the nearest double
        double value = decimals > 0 ? digits / POWERS[decimals] : digits;
        return negative ? -value : value;
    }

    /** Returns how many of eight bytes, taken from the first on, are digits; each byte holds its sign less that of zero. */
    private static int digits(long eight) {
        return Long.numberOfTrailingZeros(RowShape.odd(eight)) >>> 3;
    }

    /** Returns the number of the first {@code count} digits of eight bytes. */
    private static long number(long eight, int count) {
        if (count == 0) {
            return 0;
        }
        return RowShape.number(eight << (64 - 8 * count));
    }

    private double general(int start) {
        at = start;
        if (!skip()) {
            return Double.NaN;
        }
        char[] cell = new char[at - start];
        for (int i = 0; i < cell.length; i++) {
            cell[i] = (char) (text[start + i] & 0xff);
        }
        return CellNumber.parse(cell, 0, cell.length, (char) decimal);
    }
}
