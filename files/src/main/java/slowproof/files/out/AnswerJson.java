package slowproof.files.out;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import slowproof.files.in.SourceFile;

/** Writes how a written answer was issued, schema {@code answer/1}, described in docs/output.md. */
public final class AnswerJson {
    /** Name and version of the document's form. */
    public static final String SCHEMA = "answer/1";

    private static final String OWN = "answer_sha256";
    private static final String ZEROS = "0".repeat(64);
    private static final Pattern OWN_VALUE = Pattern.compile("(\"" + OWN + "\" : \")([0-9a-f]{64})(\")");

    /**
     * How a document was issued.
     *
     * @param language language of its sentences
     * @param findingsSha256 SHA-256 of the findings inside it
     * @param lineFile name of the line file, or null without a line
     * @param forecastSha256 SHA-256 of the forecast inside it, or null without a line
     * @param releasedBy person, or null for a draft
     * @param releasedOn date as ISO 8601, or null for a draft
     * @param supersedesSha256 SHA-256 of the document that it supersedes, or null
     * @param supersedesBecause why it supersedes it, or null when no reason was given
     */
    public record Issue(
            String language,
            String findingsSha256,
            @Nullable String lineFile,
            @Nullable String forecastSha256,
            @Nullable String releasedBy,
            @Nullable String releasedOn,
            @Nullable String supersedesSha256,
            @Nullable String supersedesBecause) {}

    private AnswerJson() {}

    /**
     * Returns the document in UTF-8.
     *
     * @param issue how the document was issued
     * @param envelope what made it
     * @param documents the JSON documents beside it, whose keys get their units
     * @throws IOException if one of them is not JSON
     */
    public static byte[] of(Issue issue, Envelope envelope, Collection<byte[]> documents) throws IOException {
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
            json.text("line_file", issue.lineFile(), "no line");
            json.text("forecast_sha256", issue.forecastSha256(), "no line");
            json.text("language", issue.language());
            json.text("released_by", issue.releasedBy(), "draft");
            json.text("released_on", issue.releasedOn(), "draft");
            json.text("supersedes_sha256", issue.supersedesSha256(), "supersedes nothing");
            json.text(
                    "supersedes_because",
                    issue.supersedesBecause(),
                    issue.supersedesSha256() == null ? "supersedes nothing" : "no reason given");
            json.text(OWN, ZEROS);
            units(json, documents);
            json.end();
        }
        stream.write('\n');
        String text = stream.toString(StandardCharsets.UTF_8);
        String own = SourceFile.fingerprint(text.getBytes(StandardCharsets.UTF_8));
        return OWN_VALUE.matcher(text).replaceFirst("$1" + own + "$3").getBytes(StandardCharsets.UTF_8);
    }

    private static void units(JsonRecords json, Collection<byte[]> documents) throws IOException {
        Map<String, UnitCode> units = new TreeMap<>();
        for (byte[] document : documents) {
            for (String key : JsonLeaves.keys(document)) {
                UnitCode.of(key).ifPresent(unit -> units.put(key, unit));
            }
        }
        json.begin("units");
        for (Map.Entry<String, UnitCode> entry : units.entrySet()) {
            UnitCode unit = entry.getValue();
            json.begin(entry.getKey());
            json.text("ucum", unit.ucum(), "UCUM has no fractional exponents");
            json.text("d_si", unit.digitalSi());
            json.number("si_factor", unit.factor());
            json.number("si_offset", unit.offset());
            json.text("si_unit", unit.base());
            json.end();
        }
        json.end();
    }

    /**
     * Returns true when the document is as it was written: its own fingerprint is that of the document with zeros in
     * the fingerprint's place.
     */
    public static boolean isIntact(byte[] document) {
        String text = new String(document, StandardCharsets.UTF_8);
        Matcher own = OWN_VALUE.matcher(text);
        if (!own.find()) {
            return false;
        }
        String blank =
                new StringBuilder(text).replace(own.start(2), own.end(2), ZEROS).toString();
        return SourceFile.fingerprint(blank.getBytes(StandardCharsets.UTF_8)).equals(own.group(2));
    }
}
