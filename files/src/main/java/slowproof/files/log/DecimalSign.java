package slowproof.files.log;

import java.util.List;

/** Recognises the decimal sign of a table from its cells. */
public final class DecimalSign {
    private DecimalSign() {}

    /** Tells what a number looks like. */
    @FunctionalInterface
    public interface Numbers {
        /** Returns true when a cell is a number with that decimal sign. */
        boolean readable(String cell, char decimal);
    }

    /**
     * Returns the decimal sign. Commas are taken only where no number has a point; between commas, where they stand in
     * quotes as thousands would, only if one of them cannot separate thousands and none must.
     *
     * @param rows rows of data, each cut into its cells
     * @param separator sign between the cells
     * @param numbers what counts as a number
     */
    public static char of(List<List<String>> rows, char separator, Numbers numbers) {
        boolean doubtful = separator == ',';
        boolean commas = false;
        for (List<String> row : rows) {
            for (String cell : row) {
                boolean byPoint = cell.indexOf('.') >= 0 && numbers.readable(cell, '.');
                boolean byComma = cell.indexOf(',') >= 0 && numbers.readable(cell, ',');
                boolean thousands = doubtful && Thousands.byComma(cell);
                if (byPoint || (thousands && !byComma)) {
                    return '.';
                }
                commas |= byComma && !thousands;
            }
        }
        return commas ? ',' : '.';
    }
}
