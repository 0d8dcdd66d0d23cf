package slowproof.files.out;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonStreamContext;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** The figures of a JSON document, each with its place, to compare documents figure by figure. */
public final class JsonLeaves {
    /**
     * A figure that differs.
     *
     * @param place where, such as "conditions[2].mean_error_pct"
     * @param one what the first document has, or null
     * @param other what the second document has, or null
     */
    public record Difference(
            String place, @Nullable String one, @Nullable String other) {}

    private JsonLeaves() {}

    /**
     * Returns every value by its place, in the order of the document.
     *
     * @throws IOException if it is not JSON
     */
    public static Map<String, String> of(byte[] json) throws IOException {
        Map<String, String> leaves = new LinkedHashMap<>();
        try (JsonParser parser = new JsonFactory().createParser(json)) {
            for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
                if (token.isScalarValue()) {
                    leaves.put(place(parser), parser.getText());
                }
            }
        }
        return leaves;
    }

    /**
     * Returns the name of every key that holds a number, a list of numbers, or null.
     *
     * @throws IOException if it is not JSON
     */
    static Set<String> keys(byte[] json) throws IOException {
        Set<String> keys = new TreeSet<>();
        try (JsonParser parser = new JsonFactory().createParser(json)) {
            for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
                if (token.isNumeric() || token == JsonToken.VALUE_NULL) {
                    JsonStreamContext level = parser.getParsingContext();
                    String name = level.inArray() ? level.getParent().getCurrentName() : level.getCurrentName();
                    if (name != null) {
                        keys.add(name);
                    }
                }
            }
        }
        return keys;
    }

    private static String place(JsonParser parser) {
        StringBuilder place = new StringBuilder();
        List<JsonStreamContext> levels = new ArrayList<>();
        for (JsonStreamContext level = parser.getParsingContext(); level != null; level = level.getParent()) {
            levels.add(0, level);
        }
        for (JsonStreamContext level : levels) {
            if (level.inArray()) {
                place.append('[').append(level.getCurrentIndex()).append(']');
            } else if (level.inObject()) {
                place.append(place.isEmpty() ? "" : ".").append(level.getCurrentName());
            }
        }
        return place.toString();
    }

    /** Returns where two documents differ, in the order of the first, then of the second. */
    public static List<Difference> differences(Map<String, String> one, Map<String, String> other) {
        List<Difference> differences = new ArrayList<>();
        one.forEach((place, value) -> {
            if (!Objects.equals(value, other.get(place))) {
                differences.add(new Difference(place, value, other.get(place)));
            }
        });
        other.forEach((place, value) -> {
            if (!one.containsKey(place)) {
                differences.add(new Difference(place, null, value));
            }
        });
        return differences;
    }
}
