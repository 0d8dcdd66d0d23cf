package slowproof.report.answer;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentNameDictionary;
import org.apache.pdfbox.pdmodel.PDEmbeddedFilesNameTreeNode;
import org.apache.pdfbox.pdmodel.common.filespecification.PDComplexFileSpecification;

/** Takes the data out of a document again. */
public final class DataInside {
    private DataInside() {}

    /**
     * Returns the data inside a PDF or an HTML file.
     *
     * @return empty when there is none, or the file is neither
     * @throws IOException if it begins like a PDF and cannot be read as one
     */
    public static List<Attachment> of(byte[] file) throws IOException {
        String begin = new String(file, 0, Math.min(file.length, 1024), StandardCharsets.ISO_8859_1);
        return begin.contains("%PDF-") ? ofPdf(file) : AnswerHtml.inside(file);
    }

    private static List<Attachment> ofPdf(byte[] file) throws IOException {
        List<Attachment> found = new ArrayList<>();
        try (PDDocument document = Loader.loadPDF(file)) {
            PDDocumentNameDictionary names = document.getDocumentCatalog().getNames();
            PDEmbeddedFilesNameTreeNode tree = names == null ? null : names.getEmbeddedFiles();
            Map<String, PDComplexFileSpecification> files = tree == null ? null : tree.getNames();
            if (files == null) {
                return List.of();
            }
            for (Map.Entry<String, PDComplexFileSpecification> entry : files.entrySet()) {
                if (entry.getValue().getEmbeddedFile() != null) {
                    String description = entry.getValue().getFileDescription();
                    found.add(new Attachment(
                            entry.getKey(),
                            description == null ? "" : description,
                            entry.getValue().getEmbeddedFile().toByteArray()));
                }
            }
        }
        return found;
    }
}
