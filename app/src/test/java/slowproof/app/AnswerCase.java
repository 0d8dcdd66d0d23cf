package slowproof.app;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.common.filespecification.PDComplexFileSpecification;
import org.apache.pdfbox.pdmodel.common.filespecification.PDEmbeddedFile;
import slowproof.report.answer.Attachment;
import slowproof.report.answer.DataInside;

/** What tests of the written answer share: the small sample trial in a folder, a line for it, and what was said. */
final class AnswerCase {
    private static final Path SAMPLE =
            Path.of(System.getProperty("slowproof.root", "..")).resolve("docs/samples/first-trial");

    private final Path folder;
    private String out = "";
    private String err = "";

    /** Copies the sample into a folder and puts a line beside it. */
    AnswerCase(Path folder) throws IOException {
        this.folder = folder;
        Files.createDirectories(folder);
        for (String name : List.of("trial.yaml", "readings.csv")) {
            Files.copy(SAMPLE.resolve(name), folder.resolve(name));
        }
        Files.writeString(folder.resolve("line.yaml"), """
                line: "Cross-cutter"
                piece: {length_mm: 2500, tolerance_mm: 12}
                cycle:
                  - {ramp_to_mm_s: 190, acceleration_mm_s2: 500}
                  - {hold_rest: true}
                  - {ramp_to_mm_s: 40, acceleration_mm_s2: 500}
                  - {hold_mm: 150}
                  - {ramp_to_mm_s: 0, acceleration_mm_s2: 500}
                  - {stop_s: 1.5}
                """);
    }

    /** Runs a command; words that name a file of the folder begin with an at sign. */
    int run(String... words) {
        String[] full = words.clone();
        for (int i = 0; i < full.length; i++) {
            if (full[i].startsWith("@")) {
                full[i] = at(full[i].substring(1)).toString();
            }
        }
        CommandRun run = CommandRun.of(full);
        out = run.out();
        err = run.err();
        return run.status();
    }

    Path at(String name) {
        return folder.resolve(name);
    }

    /** What the last command printed on standard output. */
    String out() {
        return out;
    }

    /** What the last command printed on standard error. */
    String err() {
        return err;
    }

    /** The data inside a document of the folder, by name. */
    Map<String, String> inside(String name) throws IOException {
        Map<String, String> data = new LinkedHashMap<>();
        for (Attachment attachment : DataInside.of(Files.readAllBytes(at(name)))) {
            data.put(attachment.name(), new String(attachment.content(), StandardCharsets.UTF_8));
        }
        return data;
    }

    /** Writes a PDF again with one of its attachments replaced, uncompressed and everything else as it was. */
    void replace(String from, String to, String attachment, String content) throws IOException {
        try (PDDocument document = Loader.loadPDF(at(from).toFile())) {
            PDComplexFileSpecification file = document.getDocumentCatalog()
                    .getNames()
                    .getEmbeddedFiles()
                    .getNames()
                    .get(attachment);
            byte[] bytes = content.getBytes(StandardCharsets.UTF_8);
            PDEmbeddedFile data = new PDEmbeddedFile(document, new ByteArrayInputStream(bytes));
            data.setSize(bytes.length);
            file.setEmbeddedFile(data);
            file.setEmbeddedFileUnicode(data);
            document.save(at(to).toFile());
        }
    }
}
