package slowproof.files.log;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Whole lines of a plain log, parsed from bytes. */
final class PlainBlock {
    private static final double[] POWERS = {
        1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15
    };

    private final byte[] text;
    private final int end;
    private final byte separator;
    private final byte decimal;
    private final byte comment;
    private final int cells;
    private final int[] placeOf;
    private final List<Target> targets;
    private final double[][] columns;
    private int rows;
    private int at;

    private PlainBlock(byte[] text, int start, int end, Layout layout, List<Target> targets) {
        this.text = text;
        this.at = start;
        this.end = end;
        this.separator = (byte) layout.separator();
        this.decimal = (byte) layout.decimal();
        this.comment = layout.comment() < 128 ? (byte) layout.comment() : 0;
        this.cells = layout.cells();
        this.targets = targets;
        placeOf = new int[cells];
        Arrays.fill(placeOf, -1);
        for (int k = 0; k < targets.size(); k++) {
            placeOf[targets.get(k).index()] = k;
        }
        columns = new double[targets.size()][Math.max((end - start) / 24, 16)];
    }

    /** Returns the parsed lines, or null when anything in them is out of the ordinary. */
    static @Nullable PlainBlock parse(byte[] text, int start, int end, Layout layout, List<Target> targets) {
        PlainBlock block = new PlainBlock(text, start, end, layout, targets);
        return block.parse() ? block : null;
    }

    int rows() {
        return rows;
    }

    double[] column(int target) {
        return columns[target];
    }

    private boolean parse() {
        while (at < end) {
            byte first = text[at];
            if (first == comment || first == '\n' || first == '\r') {
                return false;
            }
            if (rows == columns[0].length) {
                grow();
            }
            for (int cell = 0; cell < cells; cell++) {
                int place = placeOf[cell];
                boolean good = place >= 0 ? number(targets.get(place), columns[place]) : skip();
                if (!good) {
                    return false;
                }
                boolean last = cell == cells - 1;
                if (last ? !lineEnds() : !separated()) {
                    return false;
                }
            }
            rows++;
        }
        return true;
    }

    private void grow() {
        int remaining = end - at;
        int wanted = rows + Math.max(16, (int) ((long) remaining * rows / Math.max(at, 1)) + remaining / 64);
        for (int k = 0; k < columns.length; k++) {
            columns[k] = Arrays.copyOf(columns[k], wanted);
        }
    }

    private boolean separated() {
        return at < end && text[at++] == separator;
    }

    private boolean lineEnds() {
        if (at < end && text[at] == '\r') {
            at++;
        }
        return at == end || text[at++] == '\n';
    }

    /** Passes over a cell that nobody wants; quotes might hide a separator. */
    private boolean skip() {
        while (at < end) {
            byte c = text[at];
            if (c == separator || c == '\n' || c == '\r') {
                return true;
            }
            if (c == '"') {
                return false;
            }
            at++;
        }
        return true;
    }

    /** Reads a short decimal as {@link CellNumber} does; longer ones go there. */
    private boolean number(Target target, double[] column) {
        int start = at;
        boolean negative = text[at] == '-';
        if (negative) {
            at++;
        }
        long digits = 0;
        int seen = 0;
        int decimals = -1;
        while (at < end) {
            int c = text[at] - '0';
            if (c >= 0 && c <= 9) {
                digits = 10 * digits + c;
                seen++;
                decimals += decimals >= 0 ? 1 : 0;
            } else if (text[at] == decimal && decimals < 0) {
                decimals = 0;
            } else {
                break;
            }
            at++;
        }
        boolean ended = at == end || text[at] == separator || text[at] == '\n' || text[at] == '\r';
        double value;
        if (ended && seen > 0 && seen <= 15) {
            value = decimals > 0 ? digits / POWERS[decimals] : digits;
            value = negative ? -value : value;
        } else {
            value = general(start);
            if (Double.isNaN(value)) {
                return false;
            }
        }
        value = target.value(value);
        column[rows] = value;
        return target.role() != ColumnRole.DROPOUT || (value >= 0 && value <= 1);
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
