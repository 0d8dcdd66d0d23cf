package slowproof.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.ValidationResult;
import slowproof.files.in.LineReader;
import slowproof.files.in.LoadedLine;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.TrialReader;
import slowproof.files.out.TrialWriter;
import slowproof.report.answer.Paper;
import slowproof.wording.Wording;

/** Documents of whole trials: a small one in every language, paper and with and without a line, and a large one. */
class AnswerDocumentsTest {
    @TempDir
    static Path folder;

    private static LoadedTrial small;
    private static LoadedLine smallLine;
    private static LoadedTrial large;
    private static LoadedLine largeLine;

    @BeforeAll
    static void prepare() throws IOException {
        VeraGreenfieldFoundryProvider.initialise();
        AnswerCase sample = new AnswerCase(folder.resolve("small"));
        small = TrialReader.read(sample.at("trial.yaml"));
        smallLine = LineReader.read(sample.at("line.yaml"));
        Path demo = folder.resolve("large");
        TrialWriter.write(DemoTrial.make(), "", demo);
        DemoLine.write(demo.resolve(DemoLine.FILE));
        large = TrialReader.read(demo.resolve("trial.yaml"));
        largeLine = LineReader.read(demo.resolve(DemoLine.FILE));
    }

    /** The judge is veraPDF, which knows the rules of ISO 19005-3 and ISO 14289-1. */
    @Test
    void aSmallTrialIsPdfA3AndAccessibleInEveryLanguageAndPaperWithAndWithoutALine() throws Exception {
        for (Locale language : List.of(Locale.ENGLISH, Locale.GERMAN)) {
            for (Paper paper : Paper.values()) {
                WrittenAnswer with = new WrittenAnswer(small, smallLine, Wording.of(language));
                assertThat(broken(with.write(false, paper, null, null))).isEmpty();
                WrittenAnswer without = new WrittenAnswer(small, null, Wording.of(language));
                WrittenAnswer.Release release = new WrittenAnswer.Release("Jo Example", "2026-11-26");
                assertThat(broken(without.write(false, paper, release, null))).isEmpty();
            }
        }
    }

    @Test
    void aLargeTrialIsPdfA3AndAccessibleAndLosesNoWord() throws Exception {
        WrittenAnswer answer = new WrittenAnswer(large, largeLine, Wording.of(Locale.GERMAN));
        byte[] pdf = answer.write(false, Paper.LETTER, null, null);
        assertThat(broken(pdf)).isEmpty();
        assertThat(missing(pdf, answer.write(true, Paper.LETTER, null, null))).isEmpty();
    }

    @Test
    void noWordOfASmallTrialIsCutOrTorn() throws Exception {
        for (Locale language : List.of(Locale.ENGLISH, Locale.GERMAN)) {
            for (Paper paper : Paper.values()) {
                WrittenAnswer answer = new WrittenAnswer(small, smallLine, Wording.of(language));
                assertThat(missing(answer.write(false, paper, null, null), answer.write(true, paper, null, null)))
                        .as("%s %s", language, paper)
                        .isEmpty();
            }
        }
    }

    private static List<String> broken(byte[] file) throws Exception {
        List<String> broken = new ArrayList<>();
        for (PDFAFlavour flavour : List.of(PDFAFlavour.PDFA_3_A, PDFAFlavour.PDFA_3_U, PDFAFlavour.PDFUA_1)) {
            try (PDFAParser parser = Foundries.defaultInstance().createParser(new ByteArrayInputStream(file), flavour);
                    PDFAValidator judge = Foundries.defaultInstance().createValidator(flavour, false)) {
                ValidationResult result = judge.validate(parser);
                result.getTestAssertions().stream()
                        .map(found -> flavour + " " + found.getRuleId().getClause() + " " + found.getMessage())
                        .distinct()
                        .forEach(broken::add);
            }
        }
        return broken;
    }

    /** Returns the words of the HTML form that the PDF does not have as often; fingerprints may run over two lines. */
    private static List<String> missing(byte[] pdf, byte[] html) throws IOException {
        Map<String, Integer> found = new HashMap<>();
        try (PDDocument document = Loader.loadPDF(pdf)) {
            words(new PDFTextStripper().getText(document)).forEach(word -> found.merge(word, 1, Integer::sum));
        }
        String text = new String(html, StandardCharsets.UTF_8);
        String body = text.substring(text.indexOf("</style>"))
                .replaceAll("<a [^>]*>[^<]*</a>", "")
                .replaceAll("</?(span|b)( [^>]*)?>", "")
                .replaceAll("<[^>]*>", " ")
                .replace("&lt;", "<")
                .replace("&gt;", ">")
                .replace("&quot;", "\"")
                .replace("&#39;", "'")
                .replace("&#160;", " ")
                .replace("&amp;", "&");
        List<String> missing = new ArrayList<>();
        for (String word : words(body)) {
            if (word.length() < 40 && found.merge(word, -1, Integer::sum) < 0) {
                missing.add(word);
            }
        }
        return missing;
    }

    private static List<String> words(String text) {
        // a line may end after a hyphen and after a stroke
        return Arrays.stream(text.split("[\\s\\u00a0/-]+"))
                .filter(word -> !word.isEmpty())
                .toList();
    }
}
