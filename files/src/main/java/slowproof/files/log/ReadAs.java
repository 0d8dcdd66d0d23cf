package slowproof.files.log;

import java.util.List;
import java.util.stream.Collectors;

/**
 * How a log was understood, so that a person can check it.
 *
 * @param file what messages call the file
 * @param encoding encoding of the text, or {@link #PARQUET} or {@link #XLSX}
 * @param separator sign between cells
 * @param decimal decimal sign
 * @param headerRows lines above the data, comments not counted
 * @param columns which column was taken as what
 * @param ignored headings of the columns that were left alone, or their numbers
 * @param rows number of data rows
 * @param firstRows up to three rows as understood, one number per column of {@code columns}
 */
public record ReadAs(
        String file,
        String encoding,
        char separator,
        char decimal,
        int headerRows,
        List<Taken> columns,
        List<String> ignored,
        long rows,
        List<List<Double>> firstRows) {
    /** What stands for the encoding of a Parquet file. */
    static final String PARQUET = "Parquet";

    /** What stands for the encoding of a workbook. */
    static final String XLSX = "XLSX";

    /**
     * A column that was taken.
     *
     * @param role what as
     * @param number its number from 1
     * @param heading its heading, empty when there is none
     * @param unit its unit, empty when it has none
     */
    public record Taken(ColumnRole role, int number, String heading, String unit) {}

    /** Returns true when an encoding is one of text, which has signs between its cells. */
    static boolean isText(String encoding) {
        return !encoding.equals(XLSX) && !encoding.equals(PARQUET);
    }

    /** Copies the lists. */
    public ReadAs {
        columns = List.copyOf(columns);
        ignored = List.copyOf(ignored);
        firstRows = List.copyOf(firstRows);
    }

    /**
     * Returns one line that says it all in the keys of a trial's mapping, the same in every language, such as
     * {@code time: 5 [ms], count: 2, reference: 4 [deg]; separator ";", decimal ".", UTF-8}. Cells of Parquet files and
     * workbooks need no signs between them.
     */
    public String summary() {
        String taken = columns.stream()
                .map(column -> column.role().key() + ": "
                        + (column.heading().isEmpty() ? column.number() : column.heading())
                        + (column.unit().isEmpty() ? "" : " [" + column.unit() + "]"))
                .collect(Collectors.joining(", "));
        if (!isText(encoding)) {
            return taken + "; " + encoding;
        }
        String sign = separator == '\t' ? "\\t" : String.valueOf(separator);
        return taken + "; separator \"" + sign + "\", decimal \"" + decimal + "\", " + encoding;
    }
}
