package slowproof.archive;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.Map;

/** Writes the fields of an event as one JSON object of texts, and reads it back. */
final class FieldsText {
    private static final JsonFactory JSON = new JsonFactory();

    private FieldsText() {}

    static String write(Map<String, String> fields) {
        StringWriter text = new StringWriter();
        try (JsonGenerator json = JSON.createGenerator(text)) {
            json.writeStartObject();
            for (Map.Entry<String, String> field : fields.entrySet()) {
                json.writeStringField(field.getKey(), field.getValue());
            }
            json.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }

    static Map<String, String> read(String text) {
        Map<String, String> fields = new LinkedHashMap<>();
        try (JsonParser json = JSON.createParser(text)) {
            json.nextToken();
            while (json.nextToken() == JsonToken.FIELD_NAME) {
                String name = json.currentName();
                fields.put(name, json.nextTextValue());
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return fields;
    }
}
