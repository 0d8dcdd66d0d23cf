package slowproof.files.out;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.files.in.LoadedTrial;
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

/** The document of a forecast has the described keys, all of them and no others, and its numbers fit together. */
class ForecastJsonTest {
    private static final Path WORKED = Path.of("src/test/resources/worked-example");
    private static final Wording ENGLISH = Wording.of(Locale.ENGLISH);
    private static final double LENGTH = 2500;
    /** Fast, creep over 150 mm, stop. */
    private static final List<LineStep> CYCLE = List.of(
            LineStep.RampTo.of(250, 400),
            new LineStep.HoldRest(),
            LineStep.RampTo.of(80, 400),
            new LineStep.HoldMm(150),
            LineStep.RampTo.of(0, 400),
            new LineStep.Stop(1));

    private static JsonNode json(Path folder, Line line, Wording wording) throws IOException {
        LoadedTrial loaded = TrialReader.read(folder.resolve("trial.yaml"));
        var findings = Evaluation.of(loaded.trial());
        LineEvidence evidence =
                LineEvidence.of(findings, findings.materials().get(0).material(), Evaluation.USUAL_SEED);
        Forecast forecast = Forecasting.of(evidence, line, new Settings(7, 20_000, false, 1));
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        Envelope envelope = new Envelope("0.1.0", "abc1234", "0".repeat(64), 7L);
        ForecastJson.write(forecast, envelope, loaded.sources(), wording, bytes);
        String text = bytes.toString(StandardCharsets.UTF_8);
        assertThat(text).endsWith("}\n");
        return new ObjectMapper().readTree(text);
    }

    private static JsonNode usual() throws IOException {
        return json(WORKED, Line.of("Cutter", PieceSpec.of(LENGTH, 5), CYCLE), ENGLISH);
    }

    /** Keys of an object as paths, list items as one. */
    private static void collect(JsonNode node, String path, Set<String> keys) {
        for (Map.Entry<String, JsonNode> field : node.properties()) {
            if (!field.getKey().equals("reasons")) {
                keys.add(path + field.getKey());
                collect(field.getValue(), path + field.getKey() + ".", keys);
            }
        }
        if (node.isArray()) {
            node.forEach(item -> collect(item, path, keys));
        }
    }

    private static String section() throws IOException {
        String page = Files.readString(Path.of(System.getProperty("slowproof.root"), "docs", "output.md"));
        String section = page.substring(page.indexOf("schema forecast/1"));
        return section.substring(0, section.indexOf("\n## "));
    }

    /** Words in a part of the page that could be keys. */
    private static Set<String> described(String section) {
        Set<String> keys = new TreeSet<>();
        Pattern word = Pattern.compile("`([a-z0-9_]+)`");
        for (String row : section.lines().filter(line -> line.startsWith("| `")).toList()) {
            List<String> names = new ArrayList<>();
            Matcher matcher = word.matcher(row);
            while (matcher.find()) {
                names.add(matcher.group(1));
            }
            keys.addAll(names);
        }
        return keys;
    }

    @Test
    void theDocumentHasTheDescribedKeysAndNoOthers() throws IOException {
        Set<String> paths = new TreeSet<>();
        collect(usual(), "", paths);
        // a line with travel that nobody tested, so that there are gaps
        collect(json(WORKED, Line.of("", PieceSpec.of(LENGTH, 0.1), slow()), ENGLISH), "", paths);
        Set<String> found = new TreeSet<>();
        paths.forEach(path -> found.add(path.substring(path.lastIndexOf('.') + 1)));
        String section = section();
        assertThat(described(section)).containsAll(found);
        // the table of all keys ends at an empty line; behind it are the figures of gaps, not all of which a line can
        // have
        String table = section.substring(section.indexOf("| key |"));
        Set<String> missing = described(table.substring(0, table.indexOf("\n\n")));
        missing.removeAll(found);
        // words of values, not keys
        missing.removeAll(Set.of("as_found", "scale_corrected", "curve_corrected", "conforms", "undecided"));
        assertThat(missing).isEmpty();
    }

    private static List<LineStep> slow() {
        return List.of(LineStep.RampTo.of(2, 400), new LineStep.HoldRest(), LineStep.RampTo.of(0, 400));
    }

    @Test
    void theDocumentBeginsWithWhatMadeIt() throws IOException {
        JsonNode json = usual();
        assertThat(json.fieldNames())
                .toIterable()
                .startsWith("schema", "program", "settings_sha256", "seed", "source_files", "line", "material");
        assertThat(json.get("schema").asText()).isEqualTo("forecast/1");
        assertThat(json.get("seed").asLong()).isEqualTo(7);
        assertThat(json.get("line").asText()).isEqualTo("Cutter");
        assertThat(json.at("/source_files/1/file").asText()).isEqualTo("readings.csv");
        assertThat(json.at("/source_files/1/sha256").asText()).matches("[0-9a-f]{64}");
    }

    @Test
    void theNumbersFitTogether() throws IOException {
        JsonNode json = usual();
        double error = json.get("expected_error_mm").doubleValue();
        // a sensor that over-reads by e = E/L and cuts makes pieces of L/(1 + e)
        assertThat(json.get("piece_deviation_mm").doubleValue())
                .isCloseTo(LENGTH / (1 + error / LENGTH) - LENGTH, within(1e-9));
        assertThat(error)
                .isBetween(
                        json.at("/mean_interval_95_mm/0").doubleValue(),
                        json.at("/mean_interval_95_mm/1").doubleValue());
        double shares = 0;
        double squares = 0;
        for (JsonNode part : json.get("contributions")) {
            shares += part.get("share_pct").doubleValue();
            squares += part.get("shared_by_all_pieces").booleanValue()
                    ? Math.pow(part.get("standard_uncertainty_mm").doubleValue(), 2)
                    : 0;
        }
        assertThat(shares).isCloseTo(100, within(1e-9));
        assertThat(Math.sqrt(squares))
                .isCloseTo(json.get("mean_standard_uncertainty_mm").doubleValue(), within(1e-9));
        double travel = 0;
        for (JsonNode knot : json.get("travel_spectrum")) {
            travel += knot.get("distance_mm").doubleValue();
        }
        assertThat(travel).isCloseTo(LENGTH, within(1e-6));
        double tolerance = json.at("/promises/tolerance_mm_at_95").doubleValue();
        double before = Double.POSITIVE_INFINITY;
        for (JsonNode change : json.get("changes")) {
            double gain = change.get("gain_mm").doubleValue();
            assertThat(tolerance - change.get("tolerance_mm_at_95").doubleValue())
                    .as(change.toString())
                    .isCloseTo(gain, within(1e-9));
            assertThat(gain).isLessThanOrEqualTo(before);
            before = gain;
        }
        // whole blocks are drawn
        assertThat(json.at("/monte_carlo/pieces").asLong()).isEqualTo(20_000);
        assertThat(json.at("/monte_carlo/seed").asLong()).isEqualTo(7);
        assertThat(json.at("/corrections/0/correction").asText()).isEqualTo("as_found");
        assertThat(json.at("/corrections/0/tolerance_mm_at_95").doubleValue()).isEqualTo(tolerance);
    }

    @Test
    void gapsNameThePassToAddAndTheBoundIsBothSided() throws IOException {
        JsonNode json = json(WORKED, Line.of("", PieceSpec.of(LENGTH, 0.1), slow()), ENGLISH);
        assertThat(json.get("covered").booleanValue()).isFalse();
        assertThat(json.get("decision").asText()).isNotEqualTo("conforms");
        assertThat(json.get("uncovered_mm").doubleValue()).isPositive();
        JsonNode gap = json.at("/gaps/0");
        assertThat(gap.get("lack").asText()).isEqualTo("slower");
        // the speed to add is the one that the line creeps at
        assertThat(gap.get("add_speed_mm_s").doubleValue()).isCloseTo(2, within(1e-9));
        assertThat(gap.get("text").asText()).contains("Add passes at 2 mm/s");
        assertThat(json.at("/uncovered_bound_mm/0").doubleValue()).isNegative();
        assertThat(json.at("/uncovered_bound_mm/1").doubleValue()).isNotNegative();
    }

    private static void everyNullIsExplained(JsonNode node, String path) {
        for (Map.Entry<String, JsonNode> field : node.properties()) {
            if (field.getValue().isNull()) {
                assertThat(node.path("reasons").path(field.getKey()).asText())
                        .as(path + field.getKey())
                        .isNotBlank();
            }
            everyNullIsExplained(field.getValue(), path + field.getKey() + ".");
        }
        if (node.isArray()) {
            node.forEach(item -> everyNullIsExplained(item, path));
        }
    }

    @Test
    void everyNullIsExplained() throws IOException {
        everyNullIsExplained(usual(), "");
        Line elsewhere = new Line(
                "",
                null,
                List.of(new PieceSpec(LENGTH, null, null, 1)),
                false,
                1,
                slow(),
                null,
                0,
                null,
                null,
                null,
                "",
                0.95,
                0.95);
        JsonNode json = json(WORKED, elsewhere, ENGLISH);
        everyNullIsExplained(json, "");
        assertThat(json.get("piece_deviation_mm").isNull()).isTrue();
        assertThat(json.get("outside_tolerance_ppm").isNull()).isTrue();
        assertThat(json.get("outside_interval_ppm").isNull()).isTrue();
        assertThat(json.get("decision").asText()).isEqualTo("screening only");
    }

    @Test
    void withoutRepeatsEveryKeyIsThereAndSaysWhy(@TempDir Path folder) throws IOException {
        Files.writeString(
                folder.resolve("trial.yaml"), "reference: {expanded_uncertainty_mm: 0.02}\nreadings: readings.csv\n");
        Files.writeString(folder.resolve("readings.csv"), """
                series,material,speed_mm_s,reference_mm,reading_mm
                a,felt,,0,0.0
                a,felt,100,600,600.3
                b,felt,,0,0.0
                b,felt,50,600,600.9
                """);
        JsonNode json = json(folder, Line.of("", PieceSpec.of(LENGTH, 5), CYCLE), Wording.of(Locale.GERMAN));
        List<String> keys = new ArrayList<>();
        usual().fieldNames().forEachRemaining(keys::add);
        assertThat(json.fieldNames()).toIterable().containsAll(keys);
        assertThat(json.get("expected_error_mm").isNull()).isTrue();
        assertThat(json.at("/reasons/expected_error_mm").asText()).contains("Keine Vorhersage");
        assertThat(json.get("covered").booleanValue()).isFalse();
        assertThat(json.get("decision").asText()).isEqualTo("undecided");
        everyNullIsExplained(json, "");
    }
}
