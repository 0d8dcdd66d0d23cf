package slowproof.files.out;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import org.jspecify.annotations.Nullable;

/** Writes how a written answer was issued, schema {@code answer/1}, described in docs/output.md. */
public final class AnswerJson {
    /** Name and version of the document's form. */
    public static final String SCHEMA = "answer/1";

    /**
     * Endings of keys, their units in UCUM, and in D-SI, the notation of digital calibration certificates (SI
     * Brochure, 9th edition, for the units; both notations are from memory).
     */
    private static final String[][] UNITS = {
        {"_mm", "mm", "\\milli\\metre"},
        {"_mm_s", "mm/s", "\\milli\\metre\\second\\tothe{-1}"},
        {"_mm_s2", "mm/s2", "\\milli\\metre\\second\\tothe{-2}"},
        {"_s", "s", "\\second"},
        {"_pct", "%", "\\percent"},
        {"_ppm", "[ppm]", "\\ppm"},
        {"_probability", "1", "\\one"}
    };

    /**
     * How a document was issued.
     *
     * @param language language of its sentences
     * @param findingsSha256 SHA-256 of the findings inside it
     * @param releasedBy person, or null for a draft
     * @param releasedOn date as ISO 8601, or null for a draft
     * @param supersedesSha256 SHA-256 of the document that it supersedes, or null
     */
    public record Issue(
            String language,
            String findingsSha256,
            @Nullable String releasedBy,
            @Nullable String releasedOn,
            @Nullable String supersedesSha256) {}

    private AnswerJson() {}

    /** Returns the document in UTF-8. */
    public static byte[] of(Issue issue, Envelope envelope) throws IOException {
        ByteArrayOutputStream stream = new ByteArrayOutputStream();
        try (JsonRecords json = new JsonRecords(stream)) {
            json.begin();
            json.text("schema", SCHEMA);
            json.begin("program");
            json.text("version", envelope.version());
            json.text("commit", envelope.commit());
            json.end();
            json.text("settings_sha256", envelope.settingsSha256());
            json.text("findings_sha256", issue.findingsSha256());
            json.text("language", issue.language());
            json.text("released_by", issue.releasedBy(), "draft");
            json.text("released_on", issue.releasedOn(), "draft");
            json.text("supersedes_sha256", issue.supersedesSha256(), "supersedes nothing");
            json.beginList("units");
            for (String[] unit : UNITS) {
                json.begin();
                json.text("keys_ending_in", unit[0]);
                json.text("ucum", unit[1]);
                json.text("d_si", unit[2]);
                json.end();
            }
            json.endList();
            json.end();
        }
        stream.write('\n');
        return stream.toByteArray();
    }
}
