package slowproof.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.trial.simulator.DemoPlant;
import slowproof.trial.simulator.TrueMaterial;

/** The commands as a user meets them: what they print where, and their exit status. */
class CommandLineTest {
    private static final Path SAMPLE =
            Path.of(System.getProperty("slowproof.root", "..")).resolve("docs/samples/first-trial/trial.yaml");

    @TempDir
    Path folder;

    private String out = "";
    private String err = "";

    private int run(String... words) {
        CommandRun run = CommandRun.of(words);
        out = run.out();
        err = run.err();
        return run.status();
    }

    @Test
    void findingsSayTheAnswerFirstAndDecideWithExitStatusZero() {
        assertThat(run("findings", SAMPLE.toString())).isZero();
        assertThat(err).isEmpty();
        assertThat(out.indexOf("Answer")).isLessThan(out.indexOf("Conditions"));
        assertThat(out)
                .contains("fails at 30 mm/s")
                .contains("nothing was tested between")
                .contains("Cautions");
    }

    @Test
    void jsonIsOneDocumentAndNothingElse() throws IOException {
        assertThat(run("findings", SAMPLE.toString(), "--json")).isZero();
        assertThat(err).isEmpty();
        JsonNode document = new ObjectMapper().readTree(out);
        assertThat(document.get("schema").asText()).isEqualTo("findings/1");
        assertThat(document.get("passes")).hasSize(12);
        assertThat(document.at("/source_files/0/sha256").asText()).matches("[0-9a-f]{64}");
        assertThat(document.at("/materials/0/floor_speed/status").asText()).isEqualTo("bracket");
    }

    @Test
    void bothLanguagesAreSpoken() {
        assertThat(run("reply", SAMPLE.toString(), "--lang", "de")).isZero();
        String german = out;
        assertThat(run("reply", SAMPLE.toString(), "--lang", "en")).isZero();
        assertThat(german).contains("Durchg").doesNotContain("single pass");
        assertThat(out).contains("single pass").contains("no accredited calibration");
    }

    @Test
    void spreadsheetsAreWrittenBesideTheTable() {
        Path csv = folder.resolve("c.csv");
        Path xlsx = folder.resolve("x.xlsx");
        assertThat(run("findings", SAMPLE.toString(), "--csv", csv.toString(), "--xlsx", xlsx.toString()))
                .isZero();
        assertThat(csv).isNotEmptyFile();
        assertThat(xlsx).isNotEmptyFile();
    }

    @Test
    void wrongInputGetsStatusTwoAMessageAndNothingWritten() throws IOException {
        Path trial = Files.writeString(folder.resolve("trial.yaml"), "readings: gone.csv\n");
        Path csv = folder.resolve("c.csv");
        assertThat(run("findings", trial.toString(), "--csv", csv.toString())).isEqualTo(2);
        assertThat(out).isEmpty();
        assertThat(err).contains("gone.csv");
        assertThat(csv).doesNotExist();
    }

    @Test
    void chartsAreRefusedBeforeAnythingIsWrittenWhereTheirFolderIsNone() throws IOException {
        Path file = Files.writeString(folder.resolve("a-file"), "kept");
        Path csv = folder.resolve("c.csv");
        for (Path wanted : List.of(file, file.resolve("below"))) {
            assertThat(run("findings", SAMPLE.toString(), "--csv", csv.toString(), "--charts", wanted.toString()))
                    .isEqualTo(2);
            assertThat(out).isEmpty();
            assertThat(err).contains(wanted.toString(), "--charts", "Name a folder");
            assertThat(csv).doesNotExist();
        }
        assertThat(file).hasContent("kept");
    }

    @Test
    void chartsAreWrittenWithTheirTitle() throws IOException {
        Path charts = folder.resolve("new/charts");
        assertThat(run("findings", SAMPLE.toString(), "--charts", charts.toString()))
                .isZero();
        assertThat(Files.readString(charts.resolve("acoustic-felt-error-speed.svg")))
                .contains("Error against speed: acoustic felt</text", "not tested");
    }

    @Test
    void wrongWordsGetStatusTwoAndTheWayToHelp() {
        for (List<String> words : List.of(
                List.of("findngs", "x"),
                List.of("findings"),
                List.of("findings", "x", "--jsn"),
                List.of("reply", "x", "--lang", "fr"))) {
            assertThat(run(words.toArray(new String[0]))).as(words.toString()).isEqualTo(2);
            assertThat(out).isEmpty();
            assertThat(err).contains("--help").doesNotContain("Exception");
        }
    }

    @Test
    void aWordThatCannotBeAPathGetsStatusTwo() {
        CommandRun run = CommandRun.of("findings", "trial\0.yaml");
        assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
        assertThat(run.out()).isEmpty();
        assertThat(run.err()).contains("cannot be the path of a file").doesNotContain("Exception");
    }

    @Test
    void helpIsEverywhereWithAnExample() {
        assertThat(run("--help")).isZero();
        assertThat(out).contains("demo").contains("findings").contains("reply");
        for (String command : List.of("demo", "findings", "reply")) {
            assertThat(run(command, "--help")).isZero();
            assertThat(out).contains("Example: ./slowproof " + command);
        }
    }

    @Test
    void aFolderThatCannotBeWrittenIsAFailureOfItsOwn() {
        assertThat(run(
                        "findings",
                        SAMPLE.toString(),
                        "--csv",
                        folder.resolve("no/such/folder/c.csv").toString()))
                .isEqualTo(1);
        assertThat(err).doesNotContain("\tat ");
    }

    @Test
    void theDemoWritesFilesKeepsEditedOnesAndFindsTheKnownTruth() throws IOException {
        Path demo = folder.resolve("demo");
        assertThat(run("demo", "--once", "--folder", demo.toString())).isZero();
        assertThat(out).contains("acoustic felt").contains("paste into a mail");
        Path trial = demo.resolve("trial.yaml");
        Files.writeString(trial, Files.readString(trial).replace("Demo: three", "Edited: three"));
        assertThat(run("demo", "--once", "--folder", demo.toString())).isZero();
        assertThat(out).contains("Edited: three");
        assertThat(run("findings", trial.toString(), "--json")).isZero();
        JsonNode document = new ObjectMapper().readTree(out);
        for (TrueMaterial material : DemoPlant.materials()) {
            knowsTheTruth(material, document);
        }
    }

    /** The simulator is the truth: the floor must lie inside the interval or bracket that the findings give. */
    private static void knowsTheTruth(TrueMaterial material, JsonNode document) {
        for (JsonNode found : document.get("materials")) {
            if (found.get("material").asText().equals(material.name())) {
                double truth = material.curve().floorMmPerS(DemoPlant.limitRatio(DemoPlant.STROKE_MM), 5, 400);
                JsonNode floor = found.get("floor_speed");
                assertThat(truth)
                        .isBetween(
                                floor.get("low_mm_s").doubleValue(),
                                floor.get("high_mm_s").doubleValue());
            }
        }
        double slow = 100 * material.curve().at(8);
        for (JsonNode condition : document.get("conditions")) {
            boolean own = condition.get("material").asText().equals(material.name())
                    && condition.get("speed_mm_s").doubleValue() == 8
                    && condition.get("direction").asText().equals("both");
            if (own) {
                // at 8 mm/s the ramps are short, so the mean error is close to the curve itself
                assertThat(condition.get("mean_error_pct").doubleValue()).isCloseTo(slow, within(0.05));
            }
        }
    }
}
