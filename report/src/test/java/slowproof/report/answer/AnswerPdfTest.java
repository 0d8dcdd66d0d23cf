package slowproof.report.answer;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.ValidationResult;
import slowproof.report.chart.Axis;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Place;
import slowproof.report.chart.Stroke;
import slowproof.report.chart.Tone;

class AnswerPdfTest {
    @BeforeAll
    static void startTheJudge() {
        VeraGreenfieldFoundryProvider.initialise();
    }

    /** The judge is veraPDF, which knows the rules of ISO 19005-3 and ISO 14289-1. */
    @Test
    void theFileIsPdfA3WithTagsAndAccessible() throws Exception {
        byte[] file = AnswerPdf.write(answer("DRAFT", 60));
        assertThat(broken(file, PDFAFlavour.PDFA_3_A)).isEmpty();
        assertThat(broken(file, PDFAFlavour.PDFA_3_U)).isEmpty();
        assertThat(broken(file, PDFAFlavour.PDFUA_1)).isEmpty();
    }

    @Test
    void theSameAnswerGivesTheSameBytes() throws Exception {
        assertThat(AnswerPdf.write(answer("DRAFT", 60))).isEqualTo(AnswerPdf.write(answer("DRAFT", 60)));
    }

    @Test
    void anotherFigureInsideGivesAnotherFile() throws Exception {
        byte[] other = "{\"a\":2}".getBytes(StandardCharsets.UTF_8);
        assertThat(AnswerPdf.write(answer("", 3))).isNotEqualTo(AnswerPdf.write(answer("", 3, other)));
    }

    @Test
    void everyPageCarriesTitleStateProgramAndPageNumberAndRepeatsTheTablesHead() throws Exception {
        try (PDDocument document = Loader.loadPDF(AnswerPdf.write(answer("DRAFT", 200)))) {
            int pages = document.getNumberOfPages();
            assertThat(pages).isGreaterThan(2);
            for (int page = 1; page <= pages; page++) {
                PDFTextStripper text = new PDFTextStripper();
                text.setStartPage(page);
                text.setEndPage(page);
                assertThat(text.getText(document))
                        .contains("A trial <of>", "Draft", "Program 1", "abc123", "DRAFT")
                        .contains("Page " + page + " of " + pages)
                        .contains("error");
            }
        }
    }

    @Test
    void chartsAreVectorsWithTextThatCanBeSelected() throws Exception {
        try (PDDocument document = Loader.loadPDF(AnswerPdf.write(answer("", 3)))) {
            assertThat(new PDFTextStripper().getText(document)).contains("speed in mm/s");
            List<String> images = new ArrayList<>();
            for (PDPage page : document.getPages()) {
                images(page.getResources(), images);
            }
            assertThat(images).isEmpty();
        }
    }

    @Test
    void noLineIsCutAtItsEndOrBreaksWithinAFigure() throws Exception {
        List<Block> blocks = new ArrayList<>();
        for (int length = 1; length <= 40; length++) {
            String lead = "n".repeat(length) + " and ";
            blocks.add(new Block.Marked(
                    "?", Block.Tone.OPEN, lead + "an error of \u22120.65 mm, so \u00b10.072 % of it ".repeat(6)));
        }
        blocks.add(new Block.Labelled("Input", "SHA-256 " + "9edb352c".repeat(8)));
        Answer answer = with(blocks);
        // 20 mm of margin on 215.9 mm of paper, in points
        double edge = (215.9 - 20) / 25.4 * 72 + 0.5;
        List<String> beyond = new ArrayList<>();
        PDFTextStripper reader = new PDFTextStripper() {
            @Override
            protected void processTextPosition(TextPosition sign) {
                super.processTextPosition(sign);
                if (!sign.getUnicode().isBlank() && sign.getXDirAdj() + sign.getWidthDirAdj() > edge) {
                    beyond.add(sign.getUnicode());
                }
            }
        };
        try (PDDocument document = Loader.loadPDF(AnswerPdf.write(answer))) {
            String text = reader.getText(document);
            assertThat(beyond).isEmpty();
            assertThat(text).contains("9edb352c".repeat(8));
            assertThat(text.split("\u22120\\.65 mm", -1)).hasSize(40 * 6 + 1);
            assertThat(text.split("\u00b10\\.072 %", -1)).hasSize(40 * 6 + 1);
            // the words come out in the order in which they are read
            assertThat(text.replaceAll("\\s+", " ").split("an error of \u22120\\.65 mm, so \u00b10\\.072 % of it", -1))
                    .hasSize(40 * 6 + 1);
        }
    }

    @Test
    void noPageHoldsLessThanThreeRowsOfATable() throws Exception {
        for (int rows = 36; rows <= 56; rows++) {
            List<Block> blocks = new ArrayList<>();
            List<List<String>> cells = new ArrayList<>();
            for (int row = 1; row <= rows; row++) {
                cells.add(List.of("row" + row, "0.1"));
            }
            blocks.add(new Block.Heading(2, "Passes"));
            blocks.add(new Block.Table(
                    List.of(new Block.Column("pass", "", false), new Block.Column("error", "%", true)), cells));
            try (PDDocument document = Loader.loadPDF(AnswerPdf.write(with(blocks)))) {
                for (int page = 1; page <= document.getNumberOfPages(); page++) {
                    PDFTextStripper text = new PDFTextStripper();
                    text.setStartPage(page);
                    text.setEndPage(page);
                    assertThat(text.getText(document).split("row[0-9]", -1).length - 1)
                            .as("rows on page %d of a table with %d", page, rows)
                            .isGreaterThanOrEqualTo(3);
                }
            }
        }
    }

    @Test
    void theDataComeOutAsTheyWentIn() throws Exception {
        Answer answer = answer("", 3);
        for (byte[] file : List.of(AnswerPdf.write(answer), AnswerHtml.write(answer))) {
            List<Attachment> inside = DataInside.of(file);
            assertThat(inside).hasSize(1);
            assertThat(inside.get(0).name()).isEqualTo("findings.json");
            assertThat(inside.get(0).content())
                    .isEqualTo(answer.attachments().get(0).content());
        }
        assertThat(DataInside.of("a letter".getBytes(StandardCharsets.UTF_8))).isEmpty();
    }

    private static List<String> broken(byte[] file, PDFAFlavour flavour) throws Exception {
        try (PDFAParser parser = Foundries.defaultInstance().createParser(new ByteArrayInputStream(file), flavour);
                PDFAValidator judge = Foundries.defaultInstance().createValidator(flavour, false)) {
            ValidationResult result = judge.validate(parser);
            return result.getTestAssertions().stream()
                    .map(found -> found.getRuleId().getClause() + " " + found.getMessage())
                    .distinct()
                    .toList();
        }
    }

    private static void images(PDResources resources, List<String> images) throws Exception {
        for (var name : resources.getXObjectNames()) {
            var object = resources.getXObject(name);
            if (object instanceof PDImageXObject) {
                images.add(name.getName());
            } else if (object instanceof PDFormXObject form && form.getResources() != null) {
                images(form.getResources(), images);
            }
        }
    }

    private static Answer with(List<Block> blocks) {
        Answer one = answer("", 1);
        return new Answer(
                one.title(),
                one.state(),
                one.watermark(),
                one.program(),
                one.fingerprint(),
                one.pageOf(),
                one.language(),
                Paper.LETTER,
                one.stamp(),
                blocks,
                one.attachments());
    }

    private static Answer answer(String watermark, int rows) {
        return answer(watermark, rows, "{\"a\":1}".getBytes(StandardCharsets.UTF_8));
    }

    private static Answer answer(String watermark, int rows, byte[] data) {
        Chart chart = new Chart(
                "Error against speed",
                "The error grows below 50 mm/s.",
                new Axis("speed in mm/s", true, 10, 1000),
                new Axis("error in %", false, -1, 1),
                '.',
                List.of(new Layer.Line(
                        "error curve",
                        Tone.INK,
                        Stroke.SOLID,
                        List.of(new Place(10, -0.5, -0.5, -0.5), new Place(1000, 0.1, 0.1, 0.1)))));
        List<List<String>> table = new ArrayList<>();
        for (int row = 0; row < rows; row++) {
            table.add(List.of("felt/" + row, "+0.123"));
        }
        return new Answer(
                "A trial <of> \"felt\"",
                "Draft",
                watermark,
                "Program 1",
                "input abc123",
                List.of("Page ", " of "),
                "en",
                Paper.A4,
                "",
                List.of(
                        new Block.Heading(1, "Answer"),
                        new Block.Marked("+", Block.Tone.GOOD, "It holds from 50 mm/s \u2265 & more."),
                        new Block.Labelled("Sensor", "S-1"),
                        new Block.Heading(2, "Charts"),
                        new Block.Picture(chart),
                        new Block.Heading(2, "Passes"),
                        new Block.Table(
                                List.of(new Block.Column("pass", "", false), new Block.Column("error", "%", true)),
                                table)),
                List.of(new Attachment("findings.json", "Figures", data)));
    }
}
