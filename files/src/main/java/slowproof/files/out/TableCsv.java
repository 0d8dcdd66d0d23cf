package slowproof.files.out;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Writes a table as values separated by commas (RFC 4180, UTF-8), numbers with a point and in full. A text that a
 * spreadsheet would take for a formula gets an apostrophe before it.
 */
public final class TableCsv {
    private TableCsv() {}

    /**
     * Writes a table to a stream, which stays open.
     *
     * @param headings headings, units included
     * @param rows rows, each as wide as the headings; a cell is a number, a text or null for empty
     * @param stream where to
     * @throws IOException if the stream fails
     */
    public static void write(List<String> headings, List<List<@Nullable Object>> rows, OutputStream stream)
            throws IOException {
        StringWriter text = new StringWriter();
        CsvWriter writer = CsvWriter.builder().build(text);
        writer.writeRecord(headings);
        for (List<@Nullable Object> row : rows) {
            List<String> cells = new ArrayList<>();
            for (Object cell : row) {
                cells.add(cell == null ? "" : cell instanceof String word ? Sheet.harmless(word) : cell.toString());
            }
            writer.writeRecord(cells);
        }
        writer.flush();
        stream.write(text.toString().getBytes(StandardCharsets.UTF_8));
    }
}
