package slowproof.app;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.files.in.SourceFile;
import slowproof.files.out.AnswerJson;
import slowproof.files.out.JsonLeaves;

/** What the data inside a document say about themselves. */
final class IssuedData {
    private IssuedData() {}

    /**
     * Returns a value of how the document was issued; null when it is not there.
     *
     * @param inside data by the name of their file
     * @param key key of answer.json
     */
    static @Nullable String issued(Map<String, byte[]> inside, String key) throws IOException {
        byte[] issue = inside.get(WrittenAnswer.ISSUE);
        if (issue == null) {
            return null;
        }
        String value;
        try {
            value = JsonLeaves.of(issue).get(key);
        } catch (JsonProcessingException e) {
            return null;
        }
        return value == null || value.equals("null") ? null : value;
    }

    /** Returns the name of the trial file, or null. */
    static @Nullable String trialFile(Map<String, byte[]> inside) throws IOException {
        byte[] findings = inside.get(WrittenAnswer.FINDINGS);
        try {
            return findings == null ? null : JsonLeaves.of(findings).get("source_files[0].file");
        } catch (JsonProcessingException e) {
            return null;
        }
    }

    /** Returns the names of data that are not those the document was written with: changed, missing or added. */
    static List<String> changed(Map<String, byte[]> inside) throws IOException {
        Map<String, String> wanted = new LinkedHashMap<>();
        wanted.put(WrittenAnswer.FINDINGS, "findings_sha256");
        wanted.put(WrittenAnswer.FORECAST, "forecast_sha256");
        List<String> changed = new ArrayList<>();
        for (Map.Entry<String, String> entry : wanted.entrySet()) {
            byte[] data = inside.get(entry.getKey());
            String found = data == null ? null : SourceFile.fingerprint(data);
            String said = issued(inside, entry.getValue());
            if (found == null ? said != null : !found.equals(said)) {
                changed.add(entry.getKey());
            }
        }
        byte[] issue = inside.get(WrittenAnswer.ISSUE);
        if (issue == null || !AnswerJson.isIntact(issue)) {
            changed.add(WrittenAnswer.ISSUE);
        }
        return changed;
    }
}
