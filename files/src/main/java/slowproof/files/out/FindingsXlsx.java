package slowproof.files.out;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import slowproof.trial.findings.Findings;
import slowproof.wording.Wording;

/** Writes answer, conditions, passes, cycles, budget and notes as sheets of a workbook, numbers as numbers. */
public final class FindingsXlsx {
    private FindingsXlsx() {}

    /**
     * Writes the file, whole or not at all.
     *
     * @throws IOException if it cannot be written
     */
    public static void write(Findings findings, Wording wording, Path file) throws IOException {
        WholeFile.write(file, stream -> write(findings, wording, stream));
    }

    /**
     * Writes the workbook to a stream, which stays open.
     *
     * @throws IOException if the stream fails
     */
    public static void write(Findings findings, Wording wording, OutputStream stream) throws IOException {
        SheetXlsx.write(new FindingsSheets(findings, wording).all(), stream);
    }
}
