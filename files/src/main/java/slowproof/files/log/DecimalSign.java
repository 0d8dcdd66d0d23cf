package slowproof.files.log;

import java.util.List;

/** Recognises the decimal sign of a log from the cells of its first rows. */
final class DecimalSign {
    private DecimalSign() {}

    /**
     * Returns the decimal sign. Commas are taken only where no number has a point; between commas, where they stand in
     * quotes as thousands would, only if one of them cannot separate thousands and none must.
     *
     * @param rows rows of data, each cut into its cells
     * @param separator sign between the cells
     */
    static char of(List<List<String>> rows, char separator) {
        boolean doubtful = separator == ',';
        boolean commas = false;
        for (List<String> row : rows) {
            for (String cell : row) {
                boolean byPoint = !Double.isNaN(CellNumber.parse(cell, '.'));
                boolean byComma = hasComma(cell);
                boolean thousands = doubtful && Thousands.byComma(cell);
                if ((byPoint && cell.indexOf('.') >= 0) || (thousands && !byComma)) {
                    return '.';
                }
                commas |= byComma && !thousands;
            }
        }
        return commas ? ',' : '.';
    }

    /** Returns true for a number with a decimal comma, or one that may be meant so. */
    static boolean hasComma(String cell) {
        return cell.indexOf(',') >= 0 && !Double.isNaN(CellNumber.parse(cell, ','));
    }
}
