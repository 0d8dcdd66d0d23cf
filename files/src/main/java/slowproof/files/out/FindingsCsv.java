package slowproof.files.out;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.findings.Findings;
import slowproof.wording.Wording;

/** Writes the table of conditions as values separated by commas (RFC 4180), numbers with a point and in full. */
public final class FindingsCsv {
    private FindingsCsv() {}

    /**
     * Writes the file, whole or not at all.
     *
     * @throws IOException if it cannot be written
     */
    public static void write(Findings findings, Wording wording, Path file) throws IOException {
        Sheet sheet = new FindingsSheets(findings, wording).conditions();
        WholeFile.write(file, stream -> write(sheet, stream));
    }

    /**
     * Writes the table to a stream, which stays open.
     *
     * @throws IOException if the stream fails
     */
    public static void write(Findings findings, Wording wording, OutputStream stream) throws IOException {
        write(new FindingsSheets(findings, wording).conditions(), stream);
    }

    private static void write(Sheet sheet, OutputStream stream) throws IOException {
        StringWriter text = new StringWriter();
        CsvWriter writer = CsvWriter.builder().build(text);
        writer.writeRecord(sheet.headings());
        for (List<@Nullable Object> row : sheet.rows()) {
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
