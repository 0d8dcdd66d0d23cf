package slowproof.archive.desk;

import java.time.Instant;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Something that was recorded of a card.
 *
 * @param seq its number in the card, from 1 without gaps
 * @param at when it was recorded
 * @param kind what happened, one word
 * @param fields what was typed, by name
 */
public record CardEvent(long seq, Instant at, String kind, Map<String, String> fields) {
    /** Copies the fields. */
    public CardEvent {
        fields = Collections.unmodifiableMap(new LinkedHashMap<>(fields));
    }

    /** Returns the text of a field, empty when it is absent. */
    public String text(String field) {
        return fields.getOrDefault(field, "");
    }
}
