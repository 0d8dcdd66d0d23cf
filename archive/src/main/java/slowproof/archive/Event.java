package slowproof.archive;

import java.time.Instant;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Something that was recorded.
 *
 * @param seq its number in the trial, from 1 without gaps
 * @param at when it was recorded
 * @param who who recorded it, empty when nobody was asked
 * @param kind kind
 * @param fields what was typed, by name
 */
public record Event(long seq, Instant at, String who, EventKind kind, Map<String, String> fields) {
    /** Copies the fields. */
    public Event {
        fields = Collections.unmodifiableMap(new LinkedHashMap<>(fields));
    }

    /** Creates an event by nobody known. */
    public Event(long seq, Instant at, EventKind kind, Map<String, String> fields) {
        this(seq, at, "", kind, fields);
    }

    /** Returns the text of a field, empty when it is absent. */
    public String text(String field) {
        return fields.getOrDefault(field, "");
    }
}
