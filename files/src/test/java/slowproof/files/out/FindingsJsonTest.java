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
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.RecordingCut;
import slowproof.files.in.RecordingRead;
import slowproof.files.in.SourceFile;
import slowproof.files.in.TrialReader;
import slowproof.trial.Exclusion;
import slowproof.trial.Trial;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Flag;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.PeakLine;
import slowproof.trial.recording.SpeedTrace;
import slowproof.wording.Wording;

/** The documented keys and the rule that every null is explained, on invented trials. */
class FindingsJsonTest {
    private static final Path WORKED = Path.of("src/test/resources/worked-example");
    private static final Path CALLER = Path.of("src/test/resources/caller");
    private static final Wording ENGLISH = Wording.of(Locale.ENGLISH);
    private static final Envelope ENVELOPE = new Envelope("0.1.0", "abc1234", "0".repeat(64), null);

    private static JsonNode json(Findings findings, List<SourceFile> sources, List<RecordingRead> recordings)
            throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        FindingsJson.write(findings, ENVELOPE, sources, recordings, ENGLISH, bytes);
        String text = bytes.toString(StandardCharsets.UTF_8);
        assertThat(text).endsWith("}\n");
        return new ObjectMapper().readTree(text);
    }

    private static JsonNode json(Findings findings) throws IOException {
        return json(findings, List.of(), List.of());
    }

    private static Trial trial(Path folder) {
        return TrialReader.read(folder.resolve("trial.yaml")).trial();
    }

    private static void everyNullIsExplained(JsonNode node, String path) {
        if (node.isObject()) {
            for (Map.Entry<String, JsonNode> field : node.properties()) {
                String here = path + "." + field.getKey();
                if (field.getValue().isNull()) {
                    assertThat(node.path("reasons").path(field.getKey()).asText())
                            .as(here)
                            .isNotBlank();
                }
                everyNullIsExplained(field.getValue(), here);
            }
        } else if (node.isArray()) {
            for (int i = 0; i < node.size(); i++) {
                everyNullIsExplained(node.get(i), path + "[" + i + "]");
            }
        }
    }

    private static void hasKeys(JsonNode node, String keys) {
        assertThat(node.fieldNames()).toIterable().contains(keys.split(" "));
    }

    /** Every number, text and list of the expected document must be in the found one, in the same place. */
    private static void contains(JsonNode found, JsonNode expected, String path) {
        if (expected.isObject()) {
            for (Map.Entry<String, JsonNode> field : expected.properties()) {
                String here = path + "." + field.getKey();
                assertThat(found.has(field.getKey())).as(here).isTrue();
                contains(found.get(field.getKey()), field.getValue(), here);
            }
        } else if (expected.isArray()) {
            assertThat(found).as(path).hasSameSizeAs(expected);
            for (int i = 0; i < expected.size(); i++) {
                contains(found.get(i), expected.get(i), path + "[" + i + "]");
            }
        } else if (expected.isNumber()) {
            double value = expected.doubleValue();
            // t quantiles and probabilities agree to 1e-6, lengths near zero to the decimals of the readings
            assertThat(found.doubleValue()).as(path).isCloseTo(value, within(Math.max(1e-6 * Math.abs(value), 1e-9)));
        } else {
            assertThat(found.asText()).as(path).isEqualTo(expected.asText());
        }
    }

    @Test
    void workedExampleIsWrittenWithEveryNumber() throws IOException {
        // computed with NumPy/SciPy by an independent script
        JsonNode expected =
                new ObjectMapper().readTree(WORKED.resolve("expected.json").toFile());
        contains(json(Evaluation.of(trial(WORKED))), expected, "");
    }

    @Test
    void documentBeginsWithWhatMadeIt() throws IOException {
        LoadedTrial loaded = TrialReader.read(WORKED.resolve("trial.yaml"));
        JsonNode json = json(Evaluation.of(loaded.trial()), loaded.sources(), List.of());
        assertThat(json.fieldNames()).toIterable().startsWith("schema", "program", "settings_sha256", "seed");
        assertThat(json.get("schema").asText()).isEqualTo("findings/1");
        assertThat(json.get("program").get("commit").asText()).isEqualTo("abc1234");
        assertThat(json.get("source_files")).hasSize(2);
        assertThat(json.get("source_files").get(1).get("file").asText()).isEqualTo("readings.csv");
        assertThat(json.get("source_files").get(1).get("sha256").asText()).hasSize(64);
    }

    @Test
    void everyPromisedKeyIsThere() throws IOException {
        JsonNode json = json(Evaluation.of(trial(WORKED)));
        hasKeys(json, "trial limit source_files recordings passes cycles conditions materials notes");
        hasKeys(
                json.get("passes").get(0),
                "id series material speed_mm_s plateau_speed_mm_s direction reference_mm indication_mm error_mm"
                        + " error_pct dropout_pct flags");
        hasKeys(json.get("cycles").get(0), "series material speed_mm_s closure_mm");
        hasKeys(
                json.get("conditions").get(0),
                "material setup speed_mm_s acceleration_mm_s2 direction passes mean_error_mm mean_error_pct"
                        + " repeatability_pct repeatability_degrees_of_freedom repeatability_interval_95_pct"
                        + " repeatability_limit_pct limit_pct standard_uncertainty_pct effective_degrees_of_freedom"
                        + " coverage_factor expanded_uncertainty_pct conformance_probability decision passes_outside"
                        + " single_pass_probability single_pass_decision speed_error_pct speed_ripple_pct budget"
                        + " flags");
        hasKeys(json.get("conditions").get(0).get("budget").get(0), "source standard_uncertainty_pct share_pct");
        JsonNode material = json.get("materials").get(0);
        hasKeys(
                material,
                "material error_curve floor_speed scale_error_pct pass_scatter_mm start_loss_mm start_scatter_mm"
                        + " travel_scatter_mm_per_sqrt_m compensated dropout_limit");
        hasKeys(
                material.get("floor_speed"),
                "status estimate_mm_s low_mm_s high_mm_s safe_mm_s proven_mm_s tested_down_to_mm_s confidence_pct");
        hasKeys(material.get("compensated"), "as_found_pct repeatability_pct remaining_pct void reason");
        hasKeys(
                material.get("dropout_limit"),
                "status limit_pct confidence_pct sensitivity_pct false_alarm_pct reason");
        hasKeys(json.get("notes").get(0), "code text where");
    }

    @Test
    void everyNullIsExplainedInRichAndInThinTrials() throws IOException {
        everyNullIsExplained(json(Evaluation.of(trial(WORKED))), "worked");
        everyNullIsExplained(json(Evaluation.of(trial(CALLER))), "caller");
    }

    @Test
    void sentencesFollowTheLanguage() throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        FindingsJson.write(
                Evaluation.of(trial(CALLER)), ENVELOPE, List.of(), List.of(), Wording.of(Locale.GERMAN), bytes);
        assertThat(bytes.toString(StandardCharsets.UTF_8)).contains("nicht verf\u00fcgbar (ein Durchgang)");
    }

    @Test
    void excludedPassesAreShownWithTheirReasonAndBothResults() throws IOException {
        Trial trial = trial(WORKED)
                .excluding(List.of(new Exclusion("felt-63/4", "cable caught", SourcePosition.ofFile("trial.yaml"))));
        JsonNode json = json(Evaluation.of(trial));
        JsonNode pass = json.get("passes").get(13);
        assertThat(pass.get("id").asText()).isEqualTo("felt-63/4");
        assertThat(pass.get("excluded_because").asText()).isEqualTo("cable caught");
        assertThat(pass.get("flags").get(0).asText()).isEqualTo("excluded");
        assertThat(json.get("passes").get(0).has("excluded_because")).isFalse();
        assertThat(json.get("conditions").get(1).get("passes").asInt()).isEqualTo(4);
        assertThat(json.get("conditions_with_excluded").get(1).get("passes").asInt())
                .isEqualTo(5);
    }

    private static RecordingCut cut(String name) {
        Column none = Column.copyOf(Double.NaN);
        SpeedTrace trace = new SpeedTrace(0, 1, 1, new PeakLine(none, none), new PeakLine(none, none), none);
        return new RecordingCut(name, 2, 0, 1, 1, 1, List.of(), 2, 1, 0.5, 0.1, 0.2, false, 0, null, trace);
    }

    @Test
    void recordingsAreListedWithTheirClocks() throws IOException {
        JsonNode json = json(
                Evaluation.of(trial(CALLER)),
                List.of(),
                List.of(
                        new RecordingRead(
                                "run-08.csv",
                                "axis-08.csv",
                                "surface-a",
                                "two files",
                                new RecordingRead.Clock(0.012, -35.0, 1e-4, 2.0, 40, 0.011, 5e-5),
                                null,
                                cut("run-08")),
                        new RecordingRead(
                                "run-07.csv", null, "surface-a", "one file", null, "one clock", cut("run-07"))));
        JsonNode two = json.get("recordings").get(0);
        assertThat(two.get("clock").get("offset_s").doubleValue()).isEqualTo(0.012);
        assertThat(two.get("clock").get("drift_ppm").doubleValue()).isEqualTo(-35);
        assertThat(two.get("clock").get("offset_mid_s").doubleValue()).isEqualTo(0.011);
        JsonNode one = json.get("recordings").get(1);
        assertThat(one.get("clock").isNull()).isTrue();
        assertThat(one.get("reason").asText()).isEqualTo("one clock");
        assertThat(one.get("reasons").get("clock").asText()).isEqualTo("one clock");
    }

    /** Keys of the document and all flags, in the page that describes them. */
    @Test
    void everyKeyAndFlagIsDescribed() throws IOException {
        String page = Files.readString(Path.of(System.getProperty("slowproof.root"), "docs", "output.md"));
        Set<String> keys = new TreeSet<>();
        collect(json(Evaluation.of(trial(WORKED))), keys);
        collect(json(Evaluation.of(trial(CALLER))), keys);
        for (Flag flag : Flag.values()) {
            keys.add(flag.key());
        }
        assertThat(keys).allSatisfy(key -> assertThat(page).contains("`" + key + "`"));
    }

    private static void collect(JsonNode node, Set<String> keys) {
        for (Map.Entry<String, JsonNode> field : node.properties()) {
            if (!field.getKey().equals("reasons")) {
                keys.add(field.getKey());
                collect(field.getValue(), keys);
            }
        }
        if (node.isArray()) {
            node.forEach(item -> collect(item, keys));
        }
    }
}
