package slowproof.files.out;

import com.fasterxml.jackson.core.JsonEncoding;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.OutputStream;
import java.util.ArrayDeque;
import java.util.Collection;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Interval;
import slowproof.trial.findings.Flag;

/**
 * Writes JSON objects in which every null is explained: a figure that is not there is null, and the object ends
 * with {@code "reasons": {key: sentence}}. Numbers keep all their digits.
 */
final class JsonRecords implements AutoCloseable {
    private final JsonGenerator out;
    private final Deque<Map<String, String>> open = new ArrayDeque<>();

    /** Writes to a stream, which stays open. */
    JsonRecords(OutputStream stream) throws IOException {
        out = new JsonFactory().createGenerator(stream, JsonEncoding.UTF8);
        out.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
        // a document that was broken off must not look whole
        out.disable(JsonGenerator.Feature.AUTO_CLOSE_JSON_CONTENT);
        out.useDefaultPrettyPrinter();
    }

    void begin() throws IOException {
        out.writeStartObject();
        open.push(new LinkedHashMap<>());
    }

    void begin(String key) throws IOException {
        out.writeFieldName(key);
        begin();
    }

    /** Ends an object, with the reasons for its nulls. */
    void end() throws IOException {
        Map<String, String> reasons = open.pop();
        if (!reasons.isEmpty()) {
            out.writeObjectFieldStart("reasons");
            for (Map.Entry<String, String> reason : reasons.entrySet()) {
                out.writeStringField(reason.getKey(), reason.getValue());
            }
            out.writeEndObject();
        }
        out.writeEndObject();
    }

    void beginList(String key) throws IOException {
        out.writeArrayFieldStart(key);
    }

    void endList() throws IOException {
        out.writeEndArray();
    }

    void text(String key, String value) throws IOException {
        out.writeStringField(key, value);
    }

    void text(String key, @Nullable String value, String why) throws IOException {
        if (value == null) {
            absent(key, why);
        } else {
            out.writeStringField(key, value);
        }
    }

    void truth(String key, boolean value) throws IOException {
        out.writeBooleanField(key, value);
    }

    void whole(String key, long value) throws IOException {
        out.writeNumberField(key, value);
    }

    void whole(String key, @Nullable Number value, String why) throws IOException {
        if (value == null) {
            absent(key, why);
        } else {
            out.writeNumberField(key, value.longValue());
        }
    }

    /** Writes a number that is always there. */
    void number(String key, double value) throws IOException {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(key + " must be finite, found " + value);
        }
        out.writeNumberField(key, value);
    }

    /** Writes a number, or null with its reason when it is absent or not finite. */
    void number(String key, @Nullable Double value, String why) throws IOException {
        if (value == null || !Double.isFinite(value)) {
            absent(key, why);
        } else {
            out.writeNumberField(key, value);
        }
    }

    /** Writes a ratio as percent. */
    void percent(String key, double ratio) throws IOException {
        number(key, 100 * ratio);
    }

    /** Writes a ratio as percent, or null with its reason. */
    void percent(String key, @Nullable Double ratio, String why) throws IOException {
        number(key, ratio == null ? null : Double.valueOf(100 * ratio), why);
    }

    /** Writes an interval of ratios as [low, high] in percent, or null with its reason. */
    void percent(String key, @Nullable Interval ratios, String why) throws IOException {
        if (ratios == null) {
            absent(key, why);
            return;
        }
        interval(key, 100 * ratios.low(), 100 * ratios.high());
    }

    /** Writes an interval as [low, high]. */
    void interval(String key, double low, double high) throws IOException {
        out.writeArrayFieldStart(key);
        out.writeNumber(low);
        out.writeNumber(high);
        out.writeEndArray();
    }

    void flags(Collection<Flag> flags) throws IOException {
        out.writeArrayFieldStart("flags");
        for (Flag flag : flags) {
            out.writeString(flag.key());
        }
        out.writeEndArray();
    }

    void numbers(String key, Collection<Double> values) throws IOException {
        out.writeArrayFieldStart(key);
        for (double value : values) {
            out.writeNumber(value);
        }
        out.writeEndArray();
    }

    /** Writes null and why. */
    void absent(String key, String why) throws IOException {
        out.writeNullField(key);
        open.element().put(key, why);
    }

    @Override
    public void close() throws IOException {
        out.close();
    }
}
