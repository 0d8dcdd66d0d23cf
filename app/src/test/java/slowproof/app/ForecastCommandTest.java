package slowproof.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The forecast as a user meets it: what it prints where, and its exit status. */
class ForecastCommandTest {
    private static final String SAMPLE = Path.of(System.getProperty("slowproof.root", ".."))
            .resolve("docs/samples/first-trial/trial.yaml")
            .toString();
    private static final String LINE = """
            line: "Cutter"
            piece: {length_mm: 1000, tolerance_mm: 3}
            cycle:
              - {ramp_to_mm_s: 100, acceleration_mm_s2: 500}
              - {hold_rest: true}
              - {ramp_to_mm_s: 40, acceleration_mm_s2: 500}
              - {hold_mm: 100}
              - {ramp_to_mm_s: 0, acceleration_mm_s2: 500}
            """;

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

    private String line(String text) throws IOException {
        return Files.writeString(folder.resolve("line.yaml"), text).toString();
    }

    @Test
    void theAnswerComesFirstThenWhatItRestsOnAndTheCautionsLast() throws IOException {
        assertThat(run("forecast", SAMPLE, "--line", line(LINE), "--pieces", "65536"))
                .isZero();
        assertThat(err).isEmpty();
        List<String> order = List.of(
                "Answer for the line",
                "can be promised for 95 % of the pieces",
                "Figures for a piece",
                "Monte Carlo: 65536 pieces, seed 1",
                "What the trial does not cover",
                "What can be promised",
                "What one change buys",
                "What corrections leave",
                "What makes a piece uncertain",
                "Cautions",
                "Never hold a tape to a moving web",
                "no accredited");
        int before = -1;
        String words = out.replaceAll("\\s+", " ");
        for (String part : order) {
            assertThat(words.indexOf(part)).as(part).isGreaterThan(before);
            before = words.indexOf(part);
        }
    }

    @Test
    void germanIsSpoken() throws IOException {
        assertThat(run("forecast", SAMPLE, "--line", line(LINE), "--pieces", "1000", "--lang", "de"))
                .isZero();
        assertThat(out).contains("Was eine \u00c4nderung bringt", "zusagen").doesNotContain("promised");
    }

    @Test
    void jsonIsOneDocumentTheSameEveryTime() throws IOException {
        String[] words = {"forecast", SAMPLE, "--line", line(LINE), "--pieces", "70001", "--seed", "5", "--json"};
        assertThat(run(words)).isZero();
        assertThat(err).isEmpty();
        String first = out;
        JsonNode json = new ObjectMapper().readTree(first);
        assertThat(json.get("schema").asText()).isEqualTo("forecast/1");
        assertThat(json.get("seed").asLong()).isEqualTo(5);
        assertThat(json.at("/monte_carlo/pieces").asLong()).isEqualTo(70_001);
        assertThat(json.get("source_files")).hasSize(3);
        assertThat(json.at("/source_files/2/file").asText()).endsWith("line.yaml");
        assertThat(run(words)).isZero();
        assertThat(out).isEqualTo(first);
    }

    @Test
    void chartsAreWrittenWithTheirTitles() throws IOException {
        Path charts = folder.resolve("charts");
        assertThat(run("forecast", SAMPLE, "--line", line(LINE), "--pieces", "1000", "--charts", charts.toString()))
                .isZero();
        try (var files = Files.list(charts)) {
            assertThat(files.map(file -> file.getFileName().toString()))
                    .containsExactlyInAnyOrder(
                            "line-deviation.svg",
                            "line-sources.svg",
                            "line-speed.svg",
                            "line-error.svg",
                            "line-speed-time.svg",
                            "line-error-time.svg",
                            "line-promise.svg");
        }
        assertThat(Files.readString(charts.resolve("line-promise.svg")))
                .contains("Promised tolerance against creep speed</text");
    }

    @Test
    void aDecisionAgainstTheLineIsNoFailure() throws IOException {
        assertThat(run(
                        "forecast",
                        SAMPLE,
                        "--line",
                        line(LINE.replace("tolerance_mm: 3", "tolerance_mm: 0.5")),
                        "--json"))
                .isZero();
        assertThat(new ObjectMapper().readTree(out).get("decision").asText()).isEqualTo("does not conform");
    }

    private void refused(String message, String... words) {
        assertThat(run(words)).isEqualTo(2);
        assertThat(out).isEmpty();
        assertThat(err).contains(message).doesNotContain("Exception", "\tat ");
    }

    @Test
    void aBrokenLineIsRefusedWithItsPlaceAndNothingIsWritten() throws IOException {
        Path charts = folder.resolve("charts");
        String broken = line(LINE.replace("hold_mm: 100", "hold_mm: 5000"));
        refused(
                "line.yaml, line 4, column 3 (cycle): The steps travel",
                "forecast",
                SAMPLE,
                "--line",
                broken,
                "--json",
                "--charts",
                charts.toString());
        assertThat(charts).doesNotExist();
        refused("line 4, column 5", "forecast", SAMPLE, "--line", line(LINE.replace("ramp_to_mm_s: 100, ", "")));
    }

    @Test
    void aMaterialThatTheTrialDoesNotHaveIsRefusedAtItsPlace() throws IOException {
        refused(
                "line.yaml, line 9, column 11 (material): Material \"foil\" is not in the trial.",
                "forecast",
                SAMPLE,
                "--line",
                line(LINE + "material: foil\n"));
    }

    @Test
    void missingFilesAndWrongWordsAreRefused() throws IOException {
        refused("--line", "forecast", SAMPLE);
        refused(
                "gone.yaml",
                "forecast",
                SAMPLE,
                "--line",
                folder.resolve("gone.yaml").toString());
        refused("gone.yaml", "forecast", folder.resolve("gone.yaml").toString(), "--line", line(LINE));
        refused("--pieces", "forecast", SAMPLE, "--line", line(LINE), "--pieces", "1");
        refused("--seed", "forecast", SAMPLE, "--line", line(LINE), "--seed", "x");
        Path file = Files.writeString(folder.resolve("a-file"), "kept");
        refused("--charts", "forecast", SAMPLE, "--line", line(LINE), "--charts", file.toString());
        assertThat(file).hasContent("kept");
    }

    @Test
    void theReplyWithALineSaysTheAnswerForTheLine() throws IOException {
        assertThat(run("reply", SAMPLE, "--line", line(LINE), "--lang", "en")).isZero();
        assertThat(out).contains("Cutter", "can be promised", "no accredited calibration");
    }

    /** A web that feeds one piece of 1000 mm, logged every 10 ms by an invented tachometer that trembles. */
    private String logged() throws IOException {
        StringBuilder log = new StringBuilder("time_s,speed_mm_s\n");
        SplittableRandom random = new SplittableRandom(1);
        for (int i = 0; i <= 1100; i++) {
            double t = 0.01 * i;
            double clean = 100 * Math.max(0, Math.min(Math.min(t, 10 - t) / 0.2, 1));
            log.append(String.format(Locale.ROOT, "%.2f,%.3f%n", t, clean + (clean > 0 ? random.nextGaussian() : 0)));
        }
        Files.writeString(folder.resolve("log.csv"), log);
        return line("piece: {length_mm: 980, tolerance_mm: 3}\nprofile: log.csv\n");
    }

    @Test
    void howALogWasReadIsToldByForecastReplyAndReport() throws IOException {
        String line = logged();
        String[] told = {
            "It was read as: ", "The speed scatters by ", "The net travel of ", "The log was taken for 1 whole piece"
        };
        assertThat(run("forecast", SAMPLE, "--line", line, "--pieces", "1000")).isZero();
        assertThat(err).contains(told);
        assertThat(run("reply", SAMPLE, "--line", line)).isZero();
        assertThat(err).contains(told);
        assertThat(out).contains("can be promised").doesNotContain("read as");
        Path report = folder.resolve("report.html");
        assertThat(run("report", SAMPLE, "--line", line, "-o", report.toString()))
                .isZero();
        String words = Files.readString(report).replaceAll("<[^>]*>", "").replaceAll("[\\s\u00a0\u202f]+", " ");
        assertThat(words).contains("How the log was read").contains(told);
    }
}
