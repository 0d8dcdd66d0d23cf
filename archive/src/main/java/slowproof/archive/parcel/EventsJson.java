package slowproof.archive.parcel;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadFeature;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.archive.Event;
import slowproof.archive.EventKind;
import slowproof.archive.RecordedEvent;

/** Events as a JSON array, one object an event, in order. */
final class EventsJson {
    private static final JsonFactory JSON = JsonFactory.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .build();

    private EventsJson() {}

    static byte[] write(List<RecordedEvent> events) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (JsonGenerator json = JSON.createGenerator(bytes)) {
            json.writeStartArray();
            for (RecordedEvent recorded : events) {
                Event event = recorded.event();
                json.writeRaw('\n');
                json.writeStartObject();
                json.writeNumberField("seq", event.seq());
                json.writeStringField("at", event.at().toString());
                json.writeStringField("who", event.who());
                json.writeStringField("kind", event.kind().key());
                if (!recorded.token().isEmpty()) {
                    json.writeStringField("token", recorded.token());
                }
                json.writeObjectFieldStart("fields");
                for (Map.Entry<String, String> field : event.fields().entrySet()) {
                    json.writeStringField(field.getKey(), field.getValue());
                }
                json.writeEndObject();
                json.writeEndObject();
            }
            json.writeRaw('\n');
            json.writeEndArray();
        }
        return bytes.toByteArray();
    }

    /** Reads events; refuses what is no list of events numbered from 1 without gaps that begins with the start. */
    static List<RecordedEvent> read(InputStream stream) throws IOException, ParcelRefusedException {
        List<RecordedEvent> events = new ArrayList<>();
        try (JsonParser json = JSON.createParser(stream)) {
            Fields.expect(json.nextToken() == JsonToken.START_ARRAY, 1, "[");
            while (json.nextToken() == JsonToken.START_OBJECT) {
                events.add(new Fields(json, events.size() + 1L).event());
            }
            Fields.expect(json.currentToken() == JsonToken.END_ARRAY, events.size() + 1L, "]");
            Fields.expect(json.nextToken() == null, events.size(), "the end of the file");
        }
        if (events.isEmpty() || events.get(0).event().kind() != EventKind.STARTED) {
            throw new ParcelRefusedException("event", 1, "started");
        }
        return events;
    }

    /** Reads one event. */
    private static final class Fields {
        private final JsonParser json;
        private final long seq;
        private final Map<String, String> texts = new LinkedHashMap<>();
        private final Map<String, String> fields = new LinkedHashMap<>();

        Fields(JsonParser json, long seq) {
            this.json = json;
            this.seq = seq;
        }

        RecordedEvent event() throws IOException, ParcelRefusedException {
            boolean numbered = false;
            while (json.nextToken() == JsonToken.FIELD_NAME) {
                String name = json.currentName();
                JsonToken token = json.nextToken();
                switch (name) {
                    case "seq" -> {
                        numbered = token == JsonToken.VALUE_NUMBER_INT && json.getLongValue() == seq;
                        expect(numbered, seq, "\"seq\": " + seq);
                    }
                    case "at", "who", "kind", "token" -> texts.put(name, text(token, name));
                    case "fields" -> {
                        expect(token == JsonToken.START_OBJECT, seq, "\"fields\": {");
                        while (json.nextToken() == JsonToken.FIELD_NAME) {
                            String field = json.currentName();
                            fields.put(field, text(json.nextToken(), field));
                        }
                    }
                    default -> throw new ParcelRefusedException("event", seq, "seq, at, who, kind, token, fields");
                }
            }
            expect(numbered, seq, "\"seq\": " + seq);
            return new RecordedEvent(
                    new Event(seq, at(), texts.getOrDefault("who", ""), kind(), fields),
                    texts.getOrDefault("token", ""));
        }

        private Instant at() throws ParcelRefusedException {
            try {
                return Instant.parse(texts.getOrDefault("at", "")).truncatedTo(ChronoUnit.MICROS);
            } catch (DateTimeException e) {
                throw new ParcelRefusedException("event", seq, "\"at\": \"2026-03-02T09:00:00Z\"");
            }
        }

        private EventKind kind() throws ParcelRefusedException {
            String word = texts.getOrDefault("kind", "");
            return EventKind.find(word).orElseThrow(() -> new ParcelRefusedException("event_kind", seq, word));
        }

        private String text(JsonToken token, String name) throws IOException, ParcelRefusedException {
            expect(token == JsonToken.VALUE_STRING, seq, "\"" + name + "\": \"...\"");
            return json.getText();
        }

        static void expect(boolean met, long seq, String wanted) throws ParcelRefusedException {
            if (!met) {
                throw new ParcelRefusedException("event", seq, wanted);
            }
        }
    }
}
