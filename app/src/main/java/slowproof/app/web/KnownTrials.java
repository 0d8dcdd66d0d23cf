package slowproof.app.web;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import slowproof.archive.sheet.Sheet;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.findings.Material;
import slowproof.wording.Wording;

/** Remembers the trial that was looked at last: a slider asks for it many times. Safe for many threads. */
final class KnownTrials {
    private final Site site;
    /** Replaced as a whole. */
    private volatile @Nullable Known last;

    KnownTrials(Site site) {
        this.site = site;
    }

    /** What is known of a trial at one moment. */
    static final class Known {
        private final String id;
        private final long seq;
        private final Locale language;
        private final Findings findings;
        private final Map<String, LineEvidence> evidence = new ConcurrentHashMap<>();

        private Known(Sheet sheet, Locale language, Findings findings) {
            this.id = sheet.id();
            this.seq = sheet.lastSeq();
            this.language = language;
            this.findings = findings;
        }

        Findings findings() {
            return findings;
        }

        List<String> materials() {
            return findings.materials().stream().map(Material::material).toList();
        }

        LineEvidence evidence(String material) {
            return evidence.computeIfAbsent(material, name -> LineEvidence.of(findings, name, Evaluation.USUAL_SEED));
        }
    }

    /** Returns what is known of a trial, or null while it has no passes that count. */
    @Nullable
    Known of(Sheet sheet, Wording wording) {
        Known known = last;
        // a surface without a name is called so in the language of the reader
        if (known != null
                && known.id.equals(sheet.id())
                && known.seq == sheet.lastSeq()
                && known.language.equals(wording.locale())) {
            return known;
        }
        Findings findings = site.evaluated(sheet, wording).findings();
        if (findings == null) {
            return null;
        }
        Known fresh = new Known(sheet, wording.locale(), findings);
        last = fresh;
        return fresh;
    }
}
