package slowproof.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The written answer as the command line writes and checks it, for the trial alone and with a line. */
class AnswerCommandsTest {
    @TempDir
    Path folder;

    private AnswerCase sample;

    @BeforeEach
    void prepare() throws IOException {
        sample = new AnswerCase(folder.resolve("here"));
    }

    private void write(String name, String... more) {
        String[] words = new String[6 + more.length];
        System.arraycopy(
                new String[] {"report", "@trial.yaml", "--line", "@line.yaml", "-o", "@" + name}, 0, words, 0, 6);
        System.arraycopy(more, 0, words, 6, more.length);
        assertThat(sample.run(words)).as(sample.err()).isZero();
    }

    @Test
    void theForecastIsInTheTextAndTheSameFiguresAreInTheData() throws IOException {
        write("a.pdf");
        assertThat(sample.inside("a.pdf")).containsOnlyKeys("findings.json", "forecast.json", "answer.json");
        JsonNode data = new ObjectMapper().readTree(sample.inside("a.pdf").get("forecast.json"));
        assertThat(sample.run("forecast", "@trial.yaml", "--line", "@line.yaml", "--json"))
                .isZero();
        assertThat(data).isEqualTo(new ObjectMapper().readTree(sample.out()));
        try (PDDocument document = Loader.loadPDF(sample.at("a.pdf").toFile())) {
            String text = new PDFTextStripper().getText(document);
            assertThat(text)
                    .contains("Answer for the line", "Forecast for the line: Cross-cutter", "tolerance \u00b112 mm")
                    .contains("to 40 mm/s at 500 mm/s\u00b2", "What one change buys", "What the trial does not cover");
            PDFTextStripper first = new PDFTextStripper();
            first.setEndPage(1);
            assertThat(first.getText(document)).contains("Answer for the line");
        }
    }

    @Test
    void theFolderOfTrialAndLineDoesNotChangeAByte() throws IOException {
        write("a.pdf");
        byte[] here = Files.readAllBytes(sample.at("a.pdf"));
        AnswerCase elsewhere = new AnswerCase(folder.resolve("somewhere else").resolve("deeper"));
        assertThat(elsewhere.run("report", "@trial.yaml", "--line", "@line.yaml", "-o", "@a.pdf"))
                .isZero();
        assertThat(Files.readAllBytes(elsewhere.at("a.pdf"))).isEqualTo(here);
    }

    @Test
    void aTrialWithoutATitleIsCalledByItsFileAndNotByItsFolder() throws IOException {
        String yaml = Files.readString(sample.at("trial.yaml"));
        Files.writeString(sample.at("trial.yaml"), yaml.replaceFirst("trial: \"[^\"]*\"\n", ""));
        assertThat(sample.run("findings", "@trial.yaml", "--json")).isZero();
        assertThat(new ObjectMapper().readTree(sample.out()).get("trial").asText())
                .isEqualTo("trial.yaml");
    }

    @Test
    void verifyFindsTrialAndLineBesideTheDocumentAndSaysSame() {
        write("a.pdf");
        assertThat(sample.run("verify", "@a.pdf")).isZero();
        assertThat(sample.out()).contains("same: computed again").doesNotContain("not computed again");
        write("a.html", "--lang", "de");
        assertThat(sample.run("verify", "@a.html")).isZero();
    }

    @Test
    void withoutTheLineFileVerifySaysWhatItDidNotComputeAgain() throws IOException {
        write("a.pdf");
        Files.delete(sample.at("line.yaml"));
        assertThat(sample.run("verify", "@a.pdf")).isZero();
        assertThat(sample.out()).contains("The forecast was not computed again").contains("--line");
    }

    @Test
    void oneDigitChangedInAnAttachmentIsFoundWithItsKey() throws IOException {
        write("a.pdf", "--release", "Jo Example", "--date", "2026-11-26");
        for (String[] place : new String[][] {
            {"findings.json", "mean_error_pct"}, {"forecast.json", "piece_spread_mm"}, {"answer.json", "released_on"}
        }) {
            String data = sample.inside("a.pdf").get(place[0]);
            String changed = place[1] + ".pdf";
            sample.replace("a.pdf", changed, place[0], otherDigit(data, place[1]));
            assertThat(sample.run("verify", "@" + changed)).as(place[0]).isEqualTo(3);
            assertThat(sample.out()).contains(place[0] + " inside is not what the document was written with");
            if (!place[0].equals("answer.json")) {
                assertThat(sample.out()).contains(place[1]);
            }
        }
    }

    @Test
    void aFileWrittenAgainWithTheSameAttachmentsIsStillTheSame() throws IOException {
        write("a.pdf");
        sample.replace("a.pdf", "b.pdf", "findings.json", sample.inside("a.pdf").get("findings.json"));
        assertThat(sample.run("verify", "@b.pdf")).isZero();
    }

    @Test
    void oneDigitChangedInARawFileIsFoundWithTheFileAndTheFigures() throws IOException {
        write("a.pdf");
        String readings = Files.readString(sample.at("readings.csv"));
        Files.writeString(sample.at("readings.csv"), readings.replace("900.3", "900.4"));
        assertThat(sample.run("verify", "@a.pdf")).isEqualTo(3);
        assertThat(sample.out())
                .contains("readings.csv: its bytes are others")
                .contains("passes[2].error_pct")
                .contains("The data inside are as they were");
    }

    @Test
    void aChangedLineFileIsFound() throws IOException {
        write("a.pdf");
        String line = Files.readString(sample.at("line.yaml"));
        Files.writeString(sample.at("line.yaml"), line.replace("190", "180"));
        assertThat(sample.run("verify", "@a.pdf")).isEqualTo(3);
        assertThat(sample.out()).contains("line.yaml: its bytes are others").contains("forecast.expected_error_mm");
    }

    @Test
    void anAmendmentNamesTheFiguresOfTheForecastThatDiffer() throws IOException {
        write("a.pdf", "--release", "Jo Example", "--date", "2026-11-26");
        String line = Files.readString(sample.at("line.yaml"));
        Files.writeString(sample.at("line.yaml"), line.replace("tolerance_mm: 12", "tolerance_mm: 3"));
        write(
                "b.html",
                "--release",
                "Jo Example",
                "--date",
                "2026-11-27",
                "--supersedes",
                sample.at("a.pdf").toString());
        assertThat(Files.readString(sample.at("b.html")))
                .contains("What changed")
                .contains("forecast.outside_tolerance_ppm");
        assertThat(sample.inside("b.html").get("answer.json"))
                .contains("\"supersedes_sha256\" : \"")
                .contains("\"released_on\" : \"2026-11-27\"");
    }

    @Test
    void aLineThatNamesAnotherMaterialIsRefusedWithItsPathAndNothingIsWritten() throws IOException {
        Files.writeString(sample.at("line.yaml"), Files.readString(sample.at("line.yaml")) + "material: \"felt\"\n");
        assertThat(sample.run("report", "@trial.yaml", "--line", "@line.yaml", "-o", "@a.pdf"))
                .isEqualTo(2);
        assertThat(sample.err()).contains(sample.at("line.yaml").toString()).contains("acoustic felt");
        assertThat(sample.at("a.pdf")).doesNotExist();
    }

    /** Changes one digit, the last but one of the key's value, which is none that rounding could hide. */
    private static String otherDigit(String json, String key) {
        Matcher value =
                Pattern.compile("\"" + key + "\" : \"?[-0-9.]*([0-9])[0-9]").matcher(json);
        assertThat(value.find()).as(key).isTrue();
        char other = value.group(1).equals("1") ? '2' : '1';
        String changed = json.substring(0, value.start(1)) + other + json.substring(value.end(1));
        assertThat(changed.getBytes(StandardCharsets.UTF_8)).hasSameSizeAs(json.getBytes(StandardCharsets.UTF_8));
        return changed;
    }
}
