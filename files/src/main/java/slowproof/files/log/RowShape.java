package slowproof.files.log;

import java.lang.invoke.VarHandle;

/**
 * How the cells of a row are written: how long each is, where its decimal sign stands and whether it is below zero. Rows of a
 * log are mostly written like the row before. Then every number is known to stand at its place before any of it is looked
 * at, and some rows are read at once, cell under cell. The first that differs is found, and left to {@link PlainBlock}.
 */
final class RowShape {
    private static final VarHandle EIGHT = PlainBlock.EIGHT;
    private static final long ZEROS = 0x3030303030303030L;

    /** Rows read at once: few enough that their text is still at hand when the next cell is read. */
    private static final int AT_ONCE = 64;

    /** More digits than a double holds exactly are read another way. */
    private static final int MOST_DIGITS = 15;

    private static final int LONGEST_PAUSE = 64;

    private final byte separator;
    private final byte decimal;
    private final byte comment;

    /** Place of each cell among the wanted ones, below zero for the others. */
    private final int[] placeOf;

    private final Cell[] cells;
    private boolean known;
    private int rowLength;

    /** Rows that are not learnt from, the more the longer none was like the one before. */
    private int pause;

    private int nextPause;

    /** Knows no row yet. */
    RowShape(byte separator, byte decimal, byte comment, int[] placeOf) {
        this.comment = comment;
        this.separator = separator;
        this.decimal = decimal;
        this.placeOf = placeOf;
        this.cells = new Cell[placeOf.length];
        for (int k = 0; k < cells.length; k++) {
            cells[k] = new Cell();
        }
    }

    /** How one cell is written. */
    private static final class Cell {
        /** First byte, from that of the row, minus left out. */
        private int offset;

        private int length;
        private boolean minus;
        private byte stop;

        /** Digits of the first part, which fits in eight bytes with a decimal sign inside it. */
        private int first;

        /** Digits of the second part, zero for none. */
        private int second;

        /** True when a decimal sign stands between both parts. */
        private boolean between;

        /** Within the first part: a bit mask for a decimal sign, and for the digits before and behind it. */
        private long point;

        private long before;
        private long behind;
        private double divisor;
    }

    /** Learns from a row that begins at {@code start} and was found to be in order. */
    void learn(byte[] text, int start) {
        known = false;
        if (pause > 0) {
            pause--;
            return;
        }
        pause = nextPause;
        nextPause = Math.min(2 * nextPause + 1, LONGEST_PAUSE);
        int at = start;
        for (int k = 0; k < cells.length; k++) {
            int from = at;
            while (text[at] != separator && text[at] != '\n' && text[at] != '\r') {
                at++;
            }
            cells[k].stop = text[at];
            cells[k].offset = from - start;
            cells[k].length = at - from;
            if (placeOf[k] >= 0 && !learn(cells[k], text, start, from, at)) {
                return;
            }
            at++;
        }
        rowLength = (text[at - 1] == '\r' ? at + 1 : at) - start;
        known = true;
    }

    /** Learns from one cell; false when such a cell is better read another way. */
    private boolean learn(Cell cell, byte[] text, int start, int from, int to) {
        cell.minus = text[from] == '-';
        int begin = cell.minus ? from + 1 : from;
        int point = to;
        for (int i = begin; i < to; i++) {
            if (text[i] == decimal) {
                point = i;
            } else if (text[i] < '0' || text[i] > '9') {
                return false;
            }
        }
        int decimals = Math.max(to - point - 1, 0);
        int digits = point - begin + decimals;
        if (digits == 0 || digits > MOST_DIGITS) {
            return false;
        }
        cell.offset = begin - start;
        cell.length = to - begin;
        boolean one = cell.length <= 8;
        cell.between = !one && point < to;
        cell.first = one ? cell.length : cell.between ? point - begin : 8;
        cell.second = one ? 0 : digits - cell.first;
        boolean inside = one && point < to;
        int bit = 64 - 8 * (decimals + 1);
        cell.point = inside ? 0xFFL << bit : 0;
        cell.before = inside ? (1L << bit) - 1 : 0;
        cell.behind = !inside ? -1L : decimals == 0 ? 0 : -1L << (bit + 8);
        cell.divisor = (cell.minus ? -1 : 1) * PlainBlock.POWERS[decimals];
        return cell.first > 0 && cell.first <= 8 && cell.second <= 8 && (one || cell.second > 0);
    }

    /** Returns the bytes of a row. */
    int rowLength() {
        return rowLength;
    }

    /**
     * Takes as many rows as are written like the one learnt from, a few dozen at most.
     *
     * @param text bytes, {@link PlainBlock#SLACK} more than the rows at least
     * @param start first byte of the first row
     * @param end byte behind the last row
     * @param columns where the numbers of the wanted cells go
     * @param row where the first row goes
     * @return number of rows, zero when already the first is written differently
     */
    int take(byte[] text, int start, int end, double[][] columns, int row) {
        if (!known) {
            return 0;
        }
        int rows = Math.min(Math.min((end - start) / rowLength, AT_ONCE), columns[0].length - row);
        for (int k = 0; k < cells.length && rows > 0; k++) {
            Cell cell = cells[k];
            if (cell.minus && placeOf[k] >= 0) {
                rows = belowZero(cell, text, start, rows);
            }
            if (placeOf[k] < 0) {
                rows = passedOver(cell, text, start, rows);
            } else if (cell.second == 0) {
                rows = inOnePart(cell, text, start, rows, columns[placeOf[k]], row);
            } else {
                rows = inTwoParts(cell, text, start, rows, columns[placeOf[k]], row);
            }
        }
        if (rows > 0) {
            rows = ended(text, start, rows);
        }
        if (rows > 0) {
            pause = 0;
            nextPause = 0;
        }
        return rows;
    }

    /** Reads a cell of up to eight bytes in each row; returns how many rows are in order. */
    private int inOnePart(Cell cell, byte[] text, int start, int rows, double[] into, int row) {
        int step = rowLength;
        int shift = 64 - 8 * cell.first;
        long point = cell.point;
        long sign = ((decimal ^ '0') & 0xFFL) * 0x0101010101010101L & point;
        long before = cell.before;
        long behind = cell.behind;
        double divisor = cell.divisor;
        int length = cell.length;
        byte stop = cell.stop;
        int from = start + cell.offset;
        for (int r = 0; r < rows; r++) {
            long eight = ((long) EIGHT.get(text, from) ^ ZEROS) << shift;
            long digits = (eight & behind) | (eight & before) << 8;
            if (text[from + length] != stop || (((eight & point) ^ sign) | odd(digits)) != 0) {
                return r;
            }
            // both are exact, so the quotient is the nearest double
            into[row + r] = number(digits) / divisor;
            from += step;
        }
        return rows;
    }

    /** Reads a cell of two parts in each row; returns how many rows are in order. */
    private int inTwoParts(Cell cell, byte[] text, int start, int rows, double[] into, int row) {
        int step = rowLength;
        int shift = 64 - 8 * cell.first;
        int shift2 = 64 - 8 * cell.second;
        int length = cell.length;
        int second = length - cell.second;
        boolean between = cell.between;
        long tens = (long) PlainBlock.POWERS[cell.second];
        double divisor = cell.divisor;
        byte stop = cell.stop;
        byte sign = decimal;
        int from = start + cell.offset;
        for (int r = 0; r < rows; r++) {
            long digits = ((long) EIGHT.get(text, from) ^ ZEROS) << shift;
            long others = ((long) EIGHT.get(text, from + second) ^ ZEROS) << shift2;
            if (text[from + length] != stop
                    || (between && text[from + second - 1] != sign)
                    || (odd(digits) | odd(others)) != 0) {
                return r;
            }
            into[row + r] = (number(digits) * tens + number(others)) / divisor;
            from += step;
        }
        return rows;
    }

    /** Returns how many rows have the minus that the divisor stands for. */
    private int belowZero(Cell cell, byte[] text, int start, int rows) {
        int at = start + cell.offset - 1;
        for (int r = 0; r < rows; r++) {
            if (text[at] != '-') {
                return r;
            }
            at += rowLength;
        }
        return rows;
    }

    /** Passes over a cell that nobody wants; quotes might hide a separator. */
    private int passedOver(Cell cell, byte[] text, int start, int rows) {
        for (int r = 0; r < rows; r++) {
            int from = start + r * rowLength + cell.offset;
            if (cell.offset == 0 && text[from] == comment) {
                return r;
            }
            for (int i = from; i < from + cell.length; i++) {
                byte c = text[i];
                if (c == separator || c == '\n' || c == '\r' || c == '"') {
                    return r;
                }
            }
            if (text[from + cell.length] != cell.stop) {
                return r;
            }
        }
        return rows;
    }

    private int ended(byte[] text, int start, int rows) {
        int at = start + rowLength - 1;
        for (int r = 0; r < rows; r++) {
            if (text[at] != '\n') {
                return r;
            }
            at += rowLength;
        }
        return rows;
    }

    /** Returns zero when all eight bytes are digits less that of zero, else the highest bit of the first that is none, and others behind it. */
    static long odd(long digits) {
        // a byte above nine gets its highest bit set; what it carries over only spoils bytes behind it
        return (digits + 0x7676767676767676L | digits) & 0x8080808080808080L;
    }

    /** Adds up pairs, fours and all eight digits; the first of them is the lowest byte. */
    static long number(long digits) {
        long pairs = 10 * digits + (digits >>> 8);
        return ((pairs & 0x000000FF000000FFL) * 0x000F424000000064L
                        + ((pairs >>> 16) & 0x000000FF000000FFL) * 0x0000271000000001L)
                >>> 32;
    }
}
