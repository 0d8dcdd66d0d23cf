package slowproof.app;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.app.text.AnswerText;
import slowproof.files.in.LoadedLine;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.SourceFile;
import slowproof.files.out.AnswerJson;
import slowproof.files.out.Envelope;
import slowproof.files.out.FindingsJson;
import slowproof.files.out.ForecastJson;
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
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Settings;
import slowproof.wording.Wording;

/** Makes the written answer of a trial, and reads one again. */
public final class WrittenAnswer {
    static final String FINDINGS = "findings.json";
    static final String FORECAST = "forecast.json";
    static final String ISSUE = "answer.json";

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
     * @param reason why it is superseded, empty when nobody said
     */
    public record Superseded(String sha256, Map<String, String> figures, String reason) {
        /**
         * Reads an earlier document; returns null when the file holds no data of one.
         *
         * @param file the file, PDF or HTML
         * @param reason why it is superseded, empty for none
         * @throws IOException if it cannot be read
         */
        public static @Nullable Superseded read(Path file, String reason) throws IOException {
            Map<String, byte[]> inside = inside(file);
            return inside.get(FINDINGS) == null
                    ? null
                    : new Superseded(SourceFile.fingerprint(Files.readAllBytes(file)), placed(inside), reason);
        }
    }

    private final LoadedTrial loaded;
    private final Findings findings;
    private final @Nullable LoadedLine line;
    private final @Nullable Forecast forecast;
    private final Wording wording;

    /**
     * Prepares an answer.
     *
     * @param loaded trial as read
     * @param line line as read, or null to speak of the trial alone
     * @param wording language and units
     * @throws slowproof.trial.input.BadInputException if the line names no material of the trial
     */
    public WrittenAnswer(LoadedTrial loaded, @Nullable LoadedLine line, Wording wording) {
        this.loaded = loaded;
        this.findings = Evaluation.of(loaded.trial()).withNotesBefore(loaded.notes());
        this.line = line;
        this.forecast = line == null ? null : Lines.forecast(findings, line, Settings.of(Evaluation.USUAL_SEED));
        this.wording = wording.withAnswer();
    }

    /** Returns the figures as JSON by the name of their file: the findings, and with a line its forecast. */
    Map<String, byte[]> figures() throws IOException {
        Map<String, byte[]> files = new LinkedHashMap<>();
        ByteArrayOutputStream json = new ByteArrayOutputStream();
        Envelope own = Program.envelope(loaded, findings);
        FindingsJson.write(findings, own, loaded.sources(), loaded.recordings(), wording, json);
        files.put(FINDINGS, json.toByteArray());
        if (line != null && forecast != null) {
            ByteArrayOutputStream pieces = new ByteArrayOutputStream();
            ForecastJson.write(
                    forecast, Program.envelope(all(), Evaluation.USUAL_SEED), all().sources(), wording, pieces);
            files.put(FORECAST, pieces.toByteArray());
        }
        return files;
    }

    private LoadedTrial all() {
        return line == null ? loaded : loaded.with(line);
    }

    private Envelope envelope() {
        return line == null ? Program.envelope(loaded, findings) : Program.envelope(all(), Evaluation.USUAL_SEED);
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
    public byte[] write(boolean html, Paper paper, @Nullable Release release, @Nullable Superseded superseded)
            throws IOException {
        Map<String, byte[]> figures = figures();
        Envelope envelope = envelope();
        byte[] pieces = figures.get(FORECAST);
        AnswerJson.Issue issue = new AnswerJson.Issue(
                wording.locale().getLanguage(),
                SourceFile.fingerprint(Objects.requireNonNull(figures.get(FINDINGS))),
                line == null ? null : line.sources().get(0).name(),
                pieces == null ? null : SourceFile.fingerprint(pieces),
                release == null ? null : release.person(),
                release == null ? null : release.date(),
                superseded == null ? null : superseded.sha256(),
                superseded == null || superseded.reason().isEmpty() ? null : superseded.reason());
        List<Block> changes = superseded == null ? List.of() : AnswerChanges.of(superseded, placed(figures), wording);
        List<Attachment> attachments = new ArrayList<>();
        figures.forEach((name, json) -> attachments.add(new Attachment(
                name, wording.text(name.equals(FORECAST) ? "written.data.line" : "written.data"), json)));
        attachments.add(
                new Attachment(ISSUE, wording.text("written.issue"), AnswerJson.of(issue, envelope, figures.values())));
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
                AnswerText.of(
                        new AnswerText.Subject(
                                all(), findings, forecast, line == null ? List.of() : line.notes(), envelope),
                        changes,
                        wording),
                attachments);
        return html ? AnswerHtml.write(answer) : AnswerPdf.write(answer);
    }

    /** Returns every figure by its place, without what does not count; places of the forecast begin with its name. */
    static Map<String, String> placed(Map<String, byte[]> files) throws IOException {
        Map<String, String> all = new LinkedHashMap<>();
        byte[] findings = files.get(FINDINGS);
        if (findings != null) {
            all.putAll(placed(findings));
        }
        byte[] forecast = files.get(FORECAST);
        if (forecast != null) {
            placed(forecast).forEach((place, value) -> all.put("forecast." + place, value));
        }
        return all;
    }

    /** The version of the program and the name of the trial file do not count. */
    private static Map<String, String> placed(byte[] json) throws IOException {
        Map<String, String> leaves = JsonLeaves.of(json);
        leaves.remove("program.version");
        leaves.remove("program.commit");
        leaves.remove("source_files[0].file");
        return leaves;
    }

    private static String shortened(String commit) {
        return commit.length() > 12 ? commit.substring(0, 12) : commit;
    }

    /** Returns the data inside a file by name; empty when it holds none, or is no such document. */
    static Map<String, byte[]> inside(Path file) throws IOException {
        Map<String, byte[]> found = new LinkedHashMap<>();
        try {
            for (Attachment attachment : DataInside.of(Files.readAllBytes(file))) {
                found.put(attachment.name(), attachment.content());
            }
        } catch (IOException e) {
            if (!Files.isReadable(file)) {
                throw e;
            }
            // a file that begins like a PDF and is none holds no data either
            return Map.of();
        }
        return found;
    }
}
