package slowproof.files.out;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.Row;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.files.in.TrialReader;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecasting;
import slowproof.trial.forecast.Settings;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceSpec;
import slowproof.wording.Wording;

/** Table and workbook of a forecast hold the same numbers as its JSON, under the same names. */
class ForecastSheetsTest {
    private static final Path WORKED = Path.of("src/test/resources/worked-example/trial.yaml");
    private static final Wording ENGLISH = Wording.of(Locale.ENGLISH);

    @TempDir
    static Path folder;

    private static Forecast forecast;
    private static JsonNode json;

    @BeforeAll
    static void make() throws IOException {
        var findings = Evaluation.of(TrialReader.read(WORKED).trial());
        List<LineStep> cycle = List.of(
                LineStep.RampTo.of(250, 400),
                new LineStep.HoldRest(),
                LineStep.RampTo.of(20, 400),
                new LineStep.HoldMm(150),
                LineStep.RampTo.of(0, 400));
        String material = findings.materials().get(0).material();
        Line line = Line.of("=Cutter", PieceSpec.of(2500, 5), cycle);
        forecast = Forecasting.of(
                LineEvidence.of(findings, material, Evaluation.USUAL_SEED), line, new Settings(1, 2, false, 1));
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        ForecastJson.write(forecast, new Envelope("0", "0", "0".repeat(64), 1L), List.of(), ENGLISH, bytes);
        json = new ObjectMapper().readTree(bytes.toByteArray());
    }

    @Test
    void theTableHasAFigureARowUnderItsNameInTheJson() throws IOException {
        Path file = folder.resolve("figures.csv");
        ForecastCsv.write(forecast, ENGLISH, file);
        List<String> lines = Files.readAllLines(file);
        assertThat(lines.get(0)).isEqualTo("key,value,low,high,not_available_because");
        for (String line : lines.subList(1, lines.size())) {
            String[] cells = line.split(",", -1);
            JsonNode value = json.has(cells[0])
                    ? json.get(cells[0])
                    : json.get("promises").get(cells[0]);
            assertThat(value).as(line).isNotNull();
            if (value.isNull()) {
                assertThat(cells[4]).as(line).isNotBlank();
            } else if (value.isArray()) {
                assertThat(Double.parseDouble(cells[2])).isEqualTo(value.get(0).doubleValue());
                assertThat(Double.parseDouble(cells[3])).isEqualTo(value.get(1).doubleValue());
            } else if (value.isNumber()) {
                assertThat(Double.parseDouble(cells[1])).as(line).isEqualTo(value.doubleValue());
            } else {
                assertThat(cells[1]).isEqualTo(value.asText());
            }
        }
        assertThat(lines).filteredOn(line -> line.startsWith("decision,")).hasSize(1);
    }

    @Test
    void theWorkbookHasARowForEachEntryOfTheLists() throws IOException {
        Path file = folder.resolve("forecast.xlsx");
        ForecastXlsx.write(forecast, ENGLISH, file);
        try (ReadableWorkbook workbook = new ReadableWorkbook(Files.newInputStream(file))) {
            for (String list : List.of("contributions", "changes", "corrections", "travel_spectrum")) {
                List<Row> rows = workbook.findSheet(list).orElseThrow().read();
                assertThat(rows).as(list).hasSize(json.get(list).size() + 1);
                for (int column = 0; column < rows.get(0).getCellCount(); column++) {
                    String key = rows.get(0).getCell(column).getText();
                    assertThat(json.get(list).get(0).has(key))
                            .as(list + "." + key)
                            .isTrue();
                }
            }
            List<Row> gaps = workbook.findSheet("gaps").orElseThrow().read();
            // two figures each
            assertThat(gaps).hasSize(2 * json.get("gaps").size() + 1);
            for (Row row : gaps.subList(1, gaps.size())) {
                String key = row.getCell(1).getText();
                assertThat(row.getCell(2).asNumber().doubleValue())
                        .as(key)
                        .isEqualTo(json.get("gaps")
                                .get((row.getRowNum() - 2) / 2)
                                .get(key)
                                .doubleValue());
            }
            List<Row> answer = workbook.findSheet("answer").orElseThrow().read();
            // what begins like a formula is kept from being one
            assertThat(answer.get(1).getCell(0).getText()).isEqualTo("'=Cutter");
            assertThat(answer.get(answer.size() - 1).getCell(2).getText()).contains("no accredited calibration");
        }
    }
}
