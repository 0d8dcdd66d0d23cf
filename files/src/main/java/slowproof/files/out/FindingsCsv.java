package slowproof.files.out;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
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
        WholeFile.write(file, stream -> write(findings, wording, stream));
    }

    /**
     * Writes the table to a stream, which stays open.
     *
     * @throws IOException if the stream fails
     */
    public static void write(Findings findings, Wording wording, OutputStream stream) throws IOException {
        Sheet sheet = new FindingsSheets(findings, wording).conditions();
        TableCsv.write(sheet.headings(), sheet.rows(), stream);
    }
}
