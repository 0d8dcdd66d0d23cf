package slowproof.files.log;

/**
 * Tells whether the last cell of a text that ends without a line end is whole. A logger that is switched off while it
 * writes leaves 12.3 of 12.345, which is a number like any other. A cell is taken for whole when it shows as many
 * decimals as the longest of its column, or, in a column without decimals, as many signs as every other cell there.
 */
final class LastCell {
    private final char decimal;
    private int cells;
    private int mostDecimals = -1;
    private int fewestSigns = Integer.MAX_VALUE;
    private int mostSigns;

    /** Starts without any cell; {@code decimal} is the decimal sign. */
    LastCell(char decimal) {
        this.decimal = decimal;
    }

    /** Takes note of a cell in the last column of a row that has its line end. */
    void add(char[] text, int from, int length) {
        cells++;
        mostDecimals = Math.max(mostDecimals, decimals(text, from, length));
        fewestSigns = Math.min(fewestSigns, length);
        mostSigns = Math.max(mostSigns, length);
    }

    /** Returns true when a cell at the very end of the text shows all that its writer meant to write. */
    boolean whole(char[] text, int from, int length) {
        for (int i = from; i < from + length; i++) {
            boolean plain = (text[i] >= '0' && text[i] <= '9') || text[i] == decimal || text[i] == '-';
            if (!plain) {
                // a stamp or an exponent is whole only when it is as long as all others
                return cells > 0 && length == mostSigns && fewestSigns == mostSigns;
            }
        }
        return cells > 0
                && (mostDecimals > 0
                        ? decimals(text, from, length) >= mostDecimals
                        : length == mostSigns && fewestSigns == mostSigns);
    }

    /**
     * Returns true when the quotes around the last cell are closed. Where they are not and the cell holds a line end, they
     * are a mistake further up, and nothing broke off.
     *
     * @param text the cell without its quotes
     * @param length its length
     * @param end last sign of the whole text
     */
    static boolean closed(char[] text, int length, char end) {
        for (int i = 0; i < length; i++) {
            if (text[i] == '\n' || text[i] == '\r') {
                return true;
            }
        }
        return end == '"' && length > 0;
    }

    private int decimals(char[] text, int from, int length) {
        for (int i = from; i < from + length; i++) {
            if (text[i] == decimal) {
                return from + length - i - 1;
            }
        }
        return 0;
    }
}
