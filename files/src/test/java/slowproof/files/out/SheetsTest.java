package slowproof.files.out;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.Row;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.files.in.TrialReader;
import slowproof.trial.Exclusion;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.input.SourcePosition;
import slowproof.wording.Wording;

class SheetsTest {
    @TempDir
    Path folder;

    private final Wording wording = Wording.of(Locale.ENGLISH);

    private Findings findings(String material) throws IOException {
        String rows = "series,material,speed_mm_s,reference_mm,reading_mm\n"
                + "s,M,,0,0.0\ns,M,50,600,600.3\ns,M,50,0,0.1\ns,M,50,600,600.5\n";
        Files.writeString(folder.resolve("readings.csv"), rows.replace("M", material));
        Path file = Files.writeString(
                folder.resolve("trial.yaml"),
                "sensor: {reading_resolution_mm: 0.1}\nreference: {expanded_uncertainty_mm: 0.02}\n"
                        + "limit: {relative_pct: 0.1}\nreadings: readings.csv\n");
        return Evaluation.of(TrialReader.read(file).trial());
    }

    @Test
    void theWorkbookHasSheetsWithRealNumbers() throws IOException {
        Findings findings = findings("felt");
        Path file = folder.resolve("out.xlsx");
        FindingsXlsx.write(findings, wording, file);
        try (ReadableWorkbook workbook = new ReadableWorkbook(Files.newInputStream(file))) {
            assertThat(workbook.getSheets().map(sheet -> sheet.getName()))
                    .containsExactly("answer", "conditions", "passes", "cycles", "budget", "notes");
            List<Row> passes = workbook.findSheet("passes").orElseThrow().read();
            assertThat(passes).hasSize(findings.passes().size() + 1);
            int error =
                    passes.get(0).stream().map(cell -> cell.getText()).toList().indexOf("error_mm");
            assertThat(passes.get(1).getCell(error).getType()).isEqualTo(CellType.NUMBER);
            assertThat(passes.get(1).getCell(error).asNumber().doubleValue()).isCloseTo(0.3, within(1e-12));
        }
    }

    @Test
    void theTableOfConditionsHasARowForEach() throws IOException {
        Findings findings = findings("felt");
        Path file = folder.resolve("out.csv");
        FindingsCsv.write(findings, wording, file);
        List<String> lines = Files.readAllLines(file);
        assertThat(lines).hasSize(findings.conditions().size() + 1);
        assertThat(lines.get(0)).startsWith("material,setup,speed_mm_s,");
        assertThat(lines.get(1)).startsWith("felt,,50.0,,forward,none,2,");
    }

    @Test
    void aTextThatLooksLikeAFormulaIsMadeHarmless() throws IOException {
        for (String nasty : List.of("=1+1", "+1", "-1", "@SUM(A1)")) {
            Findings findings = findings(nasty);
            Path csv = folder.resolve("nasty.csv");
            FindingsCsv.write(findings, wording, csv);
            assertThat(Files.readAllLines(csv).get(1)).startsWith("'" + nasty);
            Path xlsx = folder.resolve("nasty.xlsx");
            FindingsXlsx.write(findings, wording, xlsx);
            try (ReadableWorkbook workbook = new ReadableWorkbook(Files.newInputStream(xlsx))) {
                Row row = workbook.findSheet("conditions").orElseThrow().read().get(1);
                assertThat(row.getCell(0).getType()).isEqualTo(CellType.STRING);
                assertThat(row.getCell(0).getText()).isEqualTo("'" + nasty);
            }
        }
    }

    @Test
    void conditionsAreShownWithoutAndWithTheExcludedPasses() throws IOException {
        Findings findings = findings("felt");
        Findings excluding = Evaluation.of(findings.trial()
                .excluding(List.of(new Exclusion("s/3", "cable caught", SourcePosition.ofFile("trial.yaml")))));
        Path csv = folder.resolve("both.csv");
        FindingsCsv.write(excluding, wording, csv);
        List<String> lines = Files.readAllLines(csv);
        assertThat(lines).hasSize(7);
        assertThat(lines.get(1)).startsWith("felt,,50.0,,forward,left out,1,");
        assertThat(lines.get(4)).startsWith("felt,,50.0,,forward,counted,2,");
        FindingsCsv.write(findings, wording, csv);
        assertThat(Files.readAllLines(csv).get(1)).startsWith("felt,,50.0,,forward,none,2,");
    }

    @Test
    void theAnswerSheetSaysForWhatItIsValid() throws IOException {
        Path file = folder.resolve("out.xlsx");
        FindingsXlsx.write(findings("felt"), wording, file);
        try (ReadableWorkbook workbook = new ReadableWorkbook(Files.newInputStream(file))) {
            List<Row> rows = workbook.findSheet("answer").orElseThrow().read();
            assertThat(rows.get(1).getCell(1).getText()).startsWith("On felt, ");
            assertThat(rows.get(rows.size() - 1).getCell(1).getText()).startsWith("This holds for the tested unit");
        }
    }

    @Test
    void controlCharactersDoNotBreakTheWorkbook() throws IOException {
        Findings findings = findings("felt");
        Findings evil = Evaluation.of(findings.trial()
                .excluding(List.of(new Exclusion("s/3", "bell\u0007 <&>\u001b", SourcePosition.ofFile("trial.yaml")))));
        Path file = folder.resolve("evil.xlsx");
        FindingsXlsx.write(evil, wording, file);
        try (ReadableWorkbook workbook = new ReadableWorkbook(Files.newInputStream(file))) {
            Row row = workbook.findSheet("passes").orElseThrow().read().get(3);
            assertThat(row.getCell(row.getCellCount() - 1).getText()).isEqualTo("bell\ufffd <&>\ufffd");
        }
    }

    @Test
    void aFileIsReadableByWhomNewFilesAre() throws IOException {
        Path plain = Files.writeString(folder.resolve("plain.txt"), "");
        Path file = folder.resolve("out.csv");
        FindingsCsv.write(findings("felt"), wording, file);
        assumeTrue(folder.getFileSystem().supportedFileAttributeViews().contains("posix"));
        assertThat(Files.getPosixFilePermissions(file)).isEqualTo(Files.getPosixFilePermissions(plain));
    }

    @Test
    void aFileThatCannotBeWrittenLeavesTheOldOneAndNothingElse() throws IOException {
        Path file = Files.writeString(folder.resolve("kept.txt"), "old");
        try {
            WholeFile.write(file, stream -> {
                stream.write('n');
                throw new IOException("disk full");
            });
            throw new AssertionError("went through");
        } catch (IOException e) {
            assertThat(e).hasMessage("disk full");
        }
        assertThat(file).hasContent("old");
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files).containsExactly(file);
        }
    }
}
