package slowproof.metrology.reference;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.jspecify.annotations.Nullable;

/** Reads reference cases from the test resources. */
public final class ReferenceCases {
    private static final ObjectMapper JSON = new ObjectMapper();

    private ReferenceCases() {}

    /**
     * Reads one case.
     *
     * @param path folder and id, for example {@code regression/york-pearson}
     * @return the case with its data
     */
    public static ReferenceCase load(String path) {
        return read(root().resolve(path + ".json"));
    }

    /** All cases, ordered by folder and id. */
    public static List<ReferenceCase> all() {
        try (Stream<Path> files = Files.walk(root())) {
            return files.filter(file -> file.toString().endsWith(".json"))
                    .sorted()
                    .map(ReferenceCases::read)
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Reads a CSV file of the reference folder that belongs to no case of its own. */
    public static CaseTable table(String path) {
        try {
            return CaseTable.parse(text(root().resolve(path)));
        } catch (IOException e) {
            throw new UncheckedIOException(path, e);
        }
    }

    private static ReferenceCase read(Path file) {
        try {
            JsonNode json = JSON.readTree(text(file));
            Path folder = file.resolveSibling("");
            JsonNode dataFile = json.get("data_file");
            List<String> sources = new ArrayList<>();
            json.get("sources").forEach(node -> sources.add(node.asText()));
            List<ExpectedValue> expected = new ArrayList<>();
            json.get("expected").forEach(node -> expected.add(expectedValue(node)));
            return new ReferenceCase(
                    json.get("id").asText(),
                    root().relativize(file.resolveSibling(".").normalize())
                            .toString()
                            .replace('\\', '/'),
                    json.get("kind").asText(),
                    json.get("citation").asText(),
                    json.get("printed_values").asText(),
                    List.copyOf(sources),
                    json.get("inputs"),
                    dataFile == null ? null : CaseTable.parse(text(folder.resolve(dataFile.asText()))),
                    List.copyOf(expected));
        } catch (IOException e) {
            throw new UncheckedIOException(file.toString(), e);
        }
    }

    private static ExpectedValue expectedValue(JsonNode node) {
        JsonNode published = node.get("published");
        return new ExpectedValue(
                node.get("name").asText(),
                published.isNull() ? null : published.asText(),
                node.get("value").doubleValue(),
                node.get("tolerance").doubleValue(),
                recomputed(node.get("recomputed")));
    }

    private static @Nullable Double recomputed(JsonNode node) {
        return node.isNumber() ? node.doubleValue() : null;
    }

    private static String text(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            InputStream plain = file.toString().endsWith(".gz") ? new GZIPInputStream(in) : in;
            return new String(plain.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static Path root() {
        URL url = ReferenceCases.class.getResource("/reference");
        if (url == null) {
            throw new IllegalStateException("the reference folder is not on the test class path");
        }
        try {
            return Path.of(url.toURI());
        } catch (URISyntaxException e) {
            throw new IllegalStateException(e);
        }
    }
}
