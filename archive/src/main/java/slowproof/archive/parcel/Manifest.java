package slowproof.archive.parcel;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import slowproof.archive.parcel.ParcelEntry.Role;

/**
 * The list of what a parcel holds.
 *
 * @param program version and commit of the program that wrote it
 * @param trial id of the trial
 * @param entries every entry but the manifest itself
 */
record Manifest(String program, String trial, List<ParcelEntry> entries) {
    static final String PATH = "manifest.json";
    static final String SCHEMA = "trial-parcel/1";

    private static final JsonFactory JSON = JsonFactory.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .build();

    /** Copies the list. */
    Manifest {
        entries = List.copyOf(entries);
    }

    byte[] toJson() throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (JsonGenerator json = JSON.createGenerator(bytes)) {
            json.setPrettyPrinter(new DefaultPrettyPrinter().withObjectIndenter(new DefaultIndenter("  ", "\n")));
            json.writeStartObject();
            json.writeStringField("schema", SCHEMA);
            json.writeStringField("program", program);
            json.writeStringField("trial", trial);
            json.writeArrayFieldStart("entries");
            for (ParcelEntry entry : entries) {
                json.writeStartObject();
                json.writeStringField("path", entry.path());
                json.writeStringField("role", entry.role().name().toLowerCase(Locale.ROOT));
                json.writeStringField("sha256", entry.sha256());
                json.writeNumberField("bytes", entry.bytes());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
        }
        return bytes.toByteArray();
    }

    /** Reads a manifest; what its values mean is checked by the reader of parcels. */
    static Manifest read(byte[] text) throws IOException, ParcelRefusedException {
        String schema = "";
        String program = "";
        String trial = "";
        List<ParcelEntry> entries = new ArrayList<>();
        try (JsonParser json = JSON.createParser(text)) {
            expect(json.nextToken() == JsonToken.START_OBJECT, "{");
            while (json.nextToken() == JsonToken.FIELD_NAME) {
                String name = json.currentName();
                JsonToken token = json.nextToken();
                switch (name) {
                    case "schema" -> schema = text(json, token, name);
                    case "program" -> program = text(json, token, name);
                    case "trial" -> trial = text(json, token, name);
                    case "entries" -> {
                        expect(token == JsonToken.START_ARRAY, "\"entries\": [");
                        while (json.nextToken() == JsonToken.START_OBJECT) {
                            entries.add(entry(json));
                        }
                    }
                    default -> throw new ParcelRefusedException("manifest", "schema, program, trial, entries");
                }
            }
        }
        if (!schema.equals(SCHEMA)) {
            throw new ParcelRefusedException("schema", schema, SCHEMA);
        }
        return new Manifest(program, trial, entries);
    }

    private static ParcelEntry entry(JsonParser json) throws IOException, ParcelRefusedException {
        String path = "";
        String role = "";
        String sha256 = "";
        long bytes = -1;
        while (json.nextToken() == JsonToken.FIELD_NAME) {
            String name = json.currentName();
            JsonToken token = json.nextToken();
            switch (name) {
                case "path" -> path = text(json, token, name);
                case "role" -> role = text(json, token, name);
                case "sha256" -> sha256 = text(json, token, name);
                case "bytes" -> {
                    expect(token == JsonToken.VALUE_NUMBER_INT, "\"bytes\": 123");
                    bytes = json.getLongValue();
                }
                default -> throw new ParcelRefusedException("manifest", "path, role, sha256, bytes");
            }
        }
        for (Role known : Role.values()) {
            if (known.name().toLowerCase(Locale.ROOT).equals(role)) {
                return new ParcelEntry(path, known, sha256, bytes);
            }
        }
        throw new ParcelRefusedException("manifest", "events, raw, derived");
    }

    private static String text(JsonParser json, JsonToken token, String name)
            throws IOException, ParcelRefusedException {
        expect(token == JsonToken.VALUE_STRING, "\"" + name + "\": \"...\"");
        return json.getText();
    }

    private static void expect(boolean met, String wanted) throws ParcelRefusedException {
        if (!met) {
            throw new ParcelRefusedException("manifest", wanted);
        }
    }
}
