package slowproof.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import com.networknt.schema.ValidationMessage;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.fhir.ucum.Decimal;
import org.fhir.ucum.UcumEssenceService;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.files.out.TrialWriter;

/** The data inside written answers against the published schemas, the documents and the published list of units. */
class AnswerDataTest {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Path DOCS =
            Path.of(System.getProperty("slowproof.root", "..")).resolve("docs");

    /** SI base units as D-SI and UCUM write them (D-SI from memory). */
    private static final Map<String, String> BASE = Map.of(
            "\\metre", "m",
            "\\metre\\second\\tothe{-1}", "m/s",
            "\\metre\\second\\tothe{-2}", "m/s2",
            "\\metre\\tothe{-1}", "/m",
            "\\kelvin", "K",
            "\\kelvin\\tothe{-1}", "/K",
            "\\radian", "rad",
            "\\second", "s",
            "\\one", "1");

    @TempDir
    static Path folder;

    /** Data inside documents by what the trial is like. */
    private static final List<Map<String, JsonNode>> DOCUMENTS = new ArrayList<>();

    @BeforeAll
    static void write() throws IOException {
        add(new AnswerCase(folder.resolve("small")), true);
        AnswerCase bare = new AnswerCase(folder.resolve("bare"));
        String yaml = Files.readString(bare.at("trial.yaml"));
        Files.writeString(bare.at("trial.yaml"), yaml.replaceAll("(?m)^(limit|reference|sensor):.*$", ""));
        add(bare, true);
        AnswerCase onePass = new AnswerCase(folder.resolve("one-pass"));
        Files.writeString(onePass.at("readings.csv"), """
                series,material,speed_mm_s,reference_mm,reading_mm
                a,felt,,0,0.0
                a,felt,50,900,900.3
                """);
        add(onePass, true);
        AnswerCase full = new AnswerCase(folder.resolve("full"));
        Files.writeString(
                full.at("trial.yaml"),
                yaml.replace("coverage_factor: 2}", """
                coverage_factor: 2, certificate: {number: "K-1", issued_by: "invented", date: "2026-01-12"}}
                stated: {relative_pct: 0.05, from_speed_mm_s: 150}
                setup: {name: "A", firmware: "1.2", working_distance_mm: 120, misalignment_deg: 0.3, abbe_offset_mm: 5,
                  abbe_angle_deg: 0.01, reference_temperature_c: {mean: 21, half_width: 2}, expansion_ppm_per_k: 11.5,
                  latency_s: 0.001, parameters: "as delivered", window: "clean"}
                exclude: [{pass: "felt-200/1", reason: "cable caught"}]""")
                        .replace("reading_resolution_mm", "counter_bits: 32, reading_resolution_mm"));
        add(full, false);
        AnswerCase large = new AnswerCase(folder.resolve("large"));
        Files.delete(large.at("trial.yaml"));
        TrialWriter.write(DemoTrial.make(), "", folder.resolve("large"));
        DemoLine.write(large.at("line.yaml"));
        add(large, true);
    }

    private static void add(AnswerCase trial, boolean withLine) throws IOException {
        int status = withLine
                ? trial.run("report", "@trial.yaml", "--line", "@line.yaml", "-o", "@a.html")
                : trial.run("report", "@trial.yaml", "-o", "@a.html", "--release", "Jo", "--date", "2026-11-26");
        assertThat(status).as(trial.err()).isZero();
        Map<String, JsonNode> data = new TreeMap<>();
        for (Map.Entry<String, String> inside : trial.inside("a.html").entrySet()) {
            data.put(inside.getKey(), JSON.readTree(inside.getValue()));
        }
        DOCUMENTS.add(data);
    }

    private static JsonNode schema(String document) throws IOException {
        return JSON.readTree(DOCS.resolve("schema")
                .resolve(document.replace(".json", "-1.schema.json"))
                .toFile());
    }

    private static Set<ValidationMessage> judged(JsonNode schema, JsonNode document) {
        JsonSchema judge =
                JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012).getSchema(schema);
        return judge.validate(document);
    }

    /** The judge is a general validator of JSON Schema, draft 2020-12. */
    @Test
    void allDataKeepToTheirSchemas() throws IOException {
        for (Map<String, JsonNode> data : DOCUMENTS) {
            for (Map.Entry<String, JsonNode> document : data.entrySet()) {
                assertThat(judged(schema(document.getKey()), document.getValue()))
                        .as(document.getKey())
                        .isEmpty();
            }
        }
    }

    @Test
    void theSchemasDeclareEveryKey() throws IOException {
        for (Map<String, JsonNode> data : DOCUMENTS) {
            for (Map.Entry<String, JsonNode> document : data.entrySet()) {
                JsonNode strict = schema(document.getKey());
                close(strict);
                assertThat(judged(strict, document.getValue()))
                        .as(document.getKey())
                        .isEmpty();
            }
        }
    }

    /** Forbids keys that an object of the schema does not declare. */
    private static void close(JsonNode schema) {
        if (schema instanceof ObjectNode object && schema.path("properties").isObject() && schema.has("type")) {
            object.put("additionalProperties", false);
        }
        schema.forEach(AnswerDataTest::close);
    }

    @Test
    void theSchemasRefuseWhatIsNotTrue() throws IOException {
        Map<String, JsonNode> data = DOCUMENTS.get(0);
        ObjectNode findings = data.get("findings.json").deepCopy();
        findings.remove("passes");
        assertThat(judged(schema("findings.json"), findings)).isNotEmpty();
        findings = data.get("findings.json").deepCopy();
        ((ObjectNode) findings.at("/conditions/0")).put("decision", "holds");
        assertThat(judged(schema("findings.json"), findings)).isNotEmpty();
        ObjectNode forecast = data.get("forecast.json").deepCopy();
        forecast.put("piece_length_mm", "2500");
        assertThat(judged(schema("forecast.json"), forecast)).isNotEmpty();
        ObjectNode answer = data.get("answer.json").deepCopy();
        answer.put("findings_sha256", "none");
        assertThat(judged(schema("answer.json"), answer)).isNotEmpty();
    }

    @Test
    void theSchemasThemselvesKeepToTheDraft() throws IOException {
        JsonNode draft = JSON.getNodeFactory().objectNode().put("$ref", "https://json-schema.org/draft/2020-12/schema");
        for (String document : List.of("findings.json", "forecast.json", "answer.json")) {
            assertThat(judged(draft, schema(document))).as(document).isEmpty();
        }
    }

    @Test
    void everyDeclaredKeyIsDescribedInTheDocuments() throws IOException {
        String text = Files.readString(DOCS.resolve("output.md"));
        for (String document : List.of("findings.json", "forecast.json", "answer.json")) {
            int from = text.indexOf("schema " + document.replace(".json", "/1"));
            Set<String> described = new TreeSet<>();
            Matcher word = Pattern.compile("`([a-z_0-9]+)`").matcher(text.substring(from));
            while (word.find()) {
                described.add(word.group(1));
            }
            Set<String> declared = new TreeSet<>();
            declared(schema(document), declared);
            declared.removeAll(described);
            assertThat(declared).as(document).isEmpty();
        }
    }

    private static void declared(JsonNode schema, Set<String> keys) {
        schema.path("properties").fieldNames().forEachRemaining(keys::add);
        schema.forEach(part -> declared(part, keys));
    }

    @Test
    void everyKeyThatHoldsNumbersHasItsUnit() {
        for (Map<String, JsonNode> data : DOCUMENTS) {
            Set<String> numeric = new TreeSet<>();
            for (String name : List.of("findings.json", "forecast.json")) {
                if (data.containsKey(name)) {
                    numeric("", data.get(name), numeric);
                }
            }
            Set<String> known = new TreeSet<>();
            data.get("answer.json").get("units").fieldNames().forEachRemaining(known::add);
            numeric.removeAll(known);
            assertThat(numeric).isEmpty();
        }
    }

    private static void numeric(String key, JsonNode node, Set<String> keys) {
        if (node.isNumber()) {
            keys.add(key);
        }
        node.properties().forEach(field -> numeric(field.getKey(), field.getValue(), keys));
        if (node.isArray()) {
            node.forEach(element -> numeric(key, element, keys));
        }
    }

    /** The judge is the published list of UCUM, ucum-essence.xml, which the library brings along. */
    @Test
    void unitsAreThoseOfTheListAndTurnIntoSiUnitsAsTheFactorsSay() throws Exception {
        UcumEssenceService list;
        try (InputStream essence = UcumEssenceService.class.getResourceAsStream("/ucum-essence.xml")) {
            list = new UcumEssenceService(essence);
        }
        Set<String> seen = new TreeSet<>();
        for (Map<String, JsonNode> data : DOCUMENTS) {
            data.get("answer.json").get("units").properties().forEach(entry -> {
                JsonNode unit = entry.getValue();
                if (unit.get("ucum").isNull()) {
                    assertThat(entry.getKey()).endsWith("_per_sqrt_m");
                    return;
                }
                String code = unit.get("ucum").asText();
                if (seen.add(code)) {
                    String base = BASE.get(unit.get("si_unit").asText());
                    assertThat(list.validate(code)).as(code).isNull();
                    assertThat(list.validate(base)).as(base).isNull();
                    if (code.equals("Cel")) {
                        // a scale with another zero, which the list does not convert: SI Brochure, 9th edition, 2.3.1
                        assertThat(unit.get("si_factor").asDouble()).isEqualTo(1);
                        assertThat(unit.get("si_offset").asDouble()).isEqualTo(273.15);
                        return;
                    }
                    assertThat(unit.get("si_offset").asDouble()).isZero();
                    assertThat(converted(list, code, base))
                            .as(code)
                            .isCloseTo(unit.get("si_factor").asDouble(), within(1e-12));
                }
            });
        }
        assertThat(seen).contains("mm", "mm/s", "mm/s2", "%", "[ppm]", "deg", "Cel", "K", "[ppm]/K", "s", "1");
    }

    private static double converted(UcumEssenceService list, String from, String to) {
        try {
            return Double.parseDouble(list.convert(new Decimal("1"), from, to).asDecimal());
        } catch (Exception e) {
            throw new AssertionError(from + " to " + to, e);
        }
    }
}
