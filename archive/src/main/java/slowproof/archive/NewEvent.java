package slowproof.archive;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;

/**
 * Something to be recorded.
 *
 * @param kind kind
 * @param fields what was typed, by name; kept as it is
 */
public record NewEvent(EventKind kind, Map<String, String> fields) {
    /** Copies the fields. */
    public NewEvent {
        Objects.requireNonNull(kind, "kind");
        fields = Collections.unmodifiableMap(new LinkedHashMap<>(fields));
    }

    /** Returns an event with the given names and texts, one after the other. */
    public static NewEvent of(EventKind kind, String... namesAndTexts) {
        if (namesAndTexts.length % 2 != 0) {
            throw new IllegalArgumentException("names and texts come in pairs, found " + namesAndTexts.length);
        }
        Map<String, String> fields = new LinkedHashMap<>();
        for (int i = 0; i < namesAndTexts.length; i += 2) {
            fields.put(namesAndTexts[i], namesAndTexts[i + 1]);
        }
        return new NewEvent(kind, fields);
    }
}
