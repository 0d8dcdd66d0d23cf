package slowproof.app;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.app.text.AnswerText;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.SourceFile;
import slowproof.files.out.AnswerJson;
import slowproof.files.out.Envelope;
import slowproof.files.out.FindingsJson;
import slowproof.files.out.JsonLeaves;
import slowproof.report.answer.Answer;
import slowproof.report.answer.AnswerHtml;
import slowproof.report.answer.AnswerPdf;
import slowproof.report.answer.Attachment;
import slowproof.report.answer.Block;
import slowproof.report.answer.DataInside;
import slowproof.report.answer.Paper;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.wording.Wording;

/** Makes the written answer of a trial, and reads one again. */
public final class WrittenAnswer {
    static final String FINDINGS = "findings.json";
    static final String ISSUE = "answer.json";
    private static final int CHANGES_LISTED = 40;

    /**
     * Who released a document and when.
     *
     * @param person name
     * @param date date as ISO 8601
     */
    public record Release(String person, String date) {}

    /**
     * A document that another supersedes.
     *
     * @param sha256 SHA-256 of the file
     * @param figures its figures by place
     */
    record Superseded(String sha256, Map<String, String> figures) {}

    private final LoadedTrial loaded;
    private final Findings findings;
    private final Envelope envelope;
    private final Wording wording;

    /**
     * Prepares an answer.
     *
     * @param loaded trial as read
     * @param wording language and units
     */
    public WrittenAnswer(LoadedTrial loaded, Wording wording) {
        this.loaded = loaded;
        this.findings = Evaluation.of(loaded.trial()).withNotesBefore(loaded.notes());
        this.envelope = FindingsCommand.envelope(loaded, findings);
        this.wording = wording.withAnswer();
    }

    /** Returns the findings as JSON. */
    byte[] findingsJson() throws IOException {
        ByteArrayOutputStream json = new ByteArrayOutputStream();
        FindingsJson.write(findings, envelope, loaded.sources(), loaded.recordings(), wording, json);
        return json.toByteArray();
    }

    /**
     * Returns the document.
     *
     * @param html true for HTML, false for PDF
     * @param paper size of the page
     * @param release who released it, or null for a draft
     * @param superseded what it supersedes, or null
     * @throws IOException if the layout fails
     */
    byte[] write(boolean html, Paper paper, @Nullable Release release, @Nullable Superseded superseded)
            throws IOException {
        byte[] json = findingsJson();
        AnswerJson.Issue issue = new AnswerJson.Issue(
                wording.locale().getLanguage(),
                SourceFile.fingerprint(json),
                release == null ? null : release.person(),
                release == null ? null : release.date(),
                superseded == null ? null : superseded.sha256());
        List<Block> changes = superseded == null ? List.of() : changes(superseded, json);
        Answer answer = new Answer(
                AnswerText.title(findings, wording),
                release == null
                        ? wording.text("written.draft")
                        : wording.text("written.released", release.person(), release.date()),
                release == null ? wording.text("written.draft_mark") : "",
                "Slowproof " + envelope.version() + " (" + shortened(envelope.commit()) + ")",
                wording.text("written.fingerprint", envelope.settingsSha256().substring(0, 16)),
                List.of(wording.text("written.page"), wording.text("written.of")),
                wording.locale().getLanguage(),
                paper,
                release == null ? "" : release.date(),
                AnswerText.of(loaded, findings, envelope, changes, wording),
                List.of(
                        new Attachment(FINDINGS, wording.text("written.data"), json),
                        new Attachment(ISSUE, wording.text("written.issue"), AnswerJson.of(issue, envelope))));
        return html ? AnswerHtml.write(answer) : AnswerPdf.write(answer);
    }

    private static String shortened(String commit) {
        return commit.length() > 12 ? commit.substring(0, 12) : commit;
    }

    private List<Block> changes(Superseded superseded, byte[] json) throws IOException {
        List<JsonLeaves.Difference> differences = JsonLeaves.differences(superseded.figures(), figures(json));
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Block.Heading(2, wording.text("written.supersedes")));
        if (differences.isEmpty()) {
            blocks.add(new Block.Paragraph(wording.text("written.supersedes.none", superseded.sha256())));
            return blocks;
        }
        blocks.add(
                new Block.Paragraph(wording.text("written.supersedes.says", superseded.sha256(), differences.size())));
        List<List<String>> rows = new ArrayList<>();
        for (JsonLeaves.Difference difference : differences.subList(0, Math.min(CHANGES_LISTED, differences.size()))) {
            rows.add(List.of(difference.place(), shown(difference.one()), shown(difference.other())));
        }
        blocks.add(new Block.Table(
                List.of(
                        new Block.Column(wording.text("written.supersedes.place"), "", false),
                        new Block.Column(wording.text("written.supersedes.before"), "", false),
                        new Block.Column(wording.text("written.supersedes.now"), "", false)),
                rows));
        if (differences.size() > CHANGES_LISTED) {
            blocks.add(
                    new Block.Paragraph(wording.text("written.supersedes.more", differences.size() - CHANGES_LISTED)));
        }
        return blocks;
    }

    private String shown(@Nullable String value) {
        return value == null ? wording.text("written.verify.absent") : Wording.shown(value);
    }

    /** Returns where two findings differ; the program's version and the folder of the trial file do not count. */
    static List<JsonLeaves.Difference> differences(byte[] one, byte[] other) throws IOException {
        return JsonLeaves.differences(figures(one), figures(other));
    }

    /** Returns the figures of findings by place, without what does not count. */
    static Map<String, String> figures(byte[] json) throws IOException {
        Map<String, String> leaves = JsonLeaves.of(json);
        leaves.remove("program.version");
        leaves.remove("program.commit");
        leaves.remove("source_files[0].file");
        return leaves;
    }

    /** Returns the data inside a file by name; empty when it holds none, or is no such document. */
    static Map<String, byte[]> inside(Path file) throws IOException {
        Map<String, byte[]> found = new java.util.LinkedHashMap<>();
        try {
            for (Attachment attachment : DataInside.of(Files.readAllBytes(file))) {
                found.put(attachment.name(), attachment.content());
            }
        } catch (java.io.IOException e) {
            if (!Files.isReadable(file)) {
                throw e;
            }
            // a file that begins like a PDF and is none holds no data either
            return Map.of();
        }
        return found;
    }

    /** Returns a value of how a document was issued; null when it is not there. */
    static @Nullable String issued(Map<String, byte[]> inside, String key) throws IOException {
        byte[] issue = inside.get(ISSUE);
        if (issue == null) {
            return null;
        }
        String value = JsonLeaves.of(issue).get(key);
        return value == null || value.equals("null") ? null : value;
    }
}
