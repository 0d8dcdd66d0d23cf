package slowproof.files.log;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How the text of a log is laid out.
 *
 * @param separator sign between cells
 * @param decimal decimal sign
 * @param comment sign at the start of comment lines
 * @param headerRows lines above the data, comments and blank lines not counted
 * @param dataLine first line of data, from 1
 * @param cells number of cells in a row of data
 * @param headings one per column, empty texts when there are none
 * @param units one per column, as in a row of units below the headings, empty texts when there is none
 * @param headingLine line of the headings, 0 when there are none
 * @param firstCells cells of the first row of data
 * @param misfit the line right above the data when there are no headings and it has another number of cells, or null
 */
record Layout(
        char separator,
        char decimal,
        char comment,
        int headerRows,
        long dataLine,
        int cells,
        List<String> headings,
        List<String> units,
        long headingLine,
        List<String> firstCells,
        @Nullable Misfit misfit) {
    /**
     * A line that would be the headings, had it as many cells as the rows.
     *
     * @param line its line, from 1
     * @param cells its cells, two at least
     */
    record Misfit(long line, List<String> cells) {}

    boolean hasHeadings() {
        return headingLine > 0;
    }

    /** Returns true when only quotes tell a decimal sign from a separator. */
    boolean needsQuotes() {
        return separator == decimal;
    }
}
