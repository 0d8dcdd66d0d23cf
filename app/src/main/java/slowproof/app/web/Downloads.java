package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import slowproof.app.FileNames;
import slowproof.app.Program;
import slowproof.app.ResultCache;
import slowproof.archive.sheet.Sheet;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.TrialFiles;
import slowproof.files.in.TrialReader;
import slowproof.files.out.Envelope;
import slowproof.files.out.FindingsCsv;
import slowproof.files.out.FindingsJson;
import slowproof.files.out.FindingsXlsx;
import slowproof.files.out.TrialWriter;
import slowproof.trial.Trial;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.slips.Slips;
import slowproof.wording.Wording;

/** Hands out a trial as files that the command line reads back to the same numbers. */
final class Downloads {
    private final Site site;

    Downloads(Site site) {
        this.site = site;
    }

    void install(RoutesConfig routes) {
        routes.get("/trials/{id}/trial.zip", this::zip);
        routes.get("/trials/{id}/findings.json", context -> send(context, "application/json", "json", Downloads::json));
        routes.get(
                "/trials/{id}/conditions.csv",
                context -> send(
                        context,
                        "text/csv; charset=utf-8",
                        "csv",
                        (loaded, findings, wording, out) -> FindingsCsv.write(findings, wording, out)));
        routes.get(
                "/trials/{id}/findings.xlsx",
                context -> send(
                        context,
                        "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
                        "xlsx",
                        (loaded, findings, wording, out) -> FindingsXlsx.write(findings, wording, out)));
    }

    private void zip(Context context) throws IOException {
        Visit visit = Visit.of(context);
        String id = context.pathParam("id");
        Sheet sheet = site.archive().sheet(id);
        Wording wording = BenchPage.wording(visit, sheet);
        attach(context, "application/zip", "zip", TrialPage.title(sheet, wording, site.zone()));
        // raw files may be larger than the memory: they go straight from the disk to the reader
        Evaluated evaluated = site.evaluated(sheet, wording);
        Parcels.write(site.archive(), evaluated, wording, site.zone(), context.outputStream());
    }

    /** What is written of a trial that was written to files and read back. */
    interface Writer {
        void write(LoadedTrial loaded, Findings findings, Wording wording, OutputStream out) throws IOException;
    }

    static void json(LoadedTrial loaded, Findings findings, Wording wording, OutputStream out) throws IOException {
        Envelope envelope = Program.envelope(loaded, findings);
        FindingsJson.write(findings, envelope, loaded.sources(), loaded.recordings(), wording, out);
    }

    private void send(Context context, String type, String ending, Writer writer) throws IOException {
        Visit visit = Visit.of(context);
        Sheet sheet = site.archive().sheet(context.pathParam("id"));
        Evaluated evaluated = site.evaluated(sheet, visit.wording());
        String title = TrialPage.title(sheet, visit.wording(), site.zone());
        byte[] content = written(
                trialFiles(evaluated, title),
                KeptRecordings.rawFiles(sheet.recordings(), site.archive()),
                BenchPage.wording(visit, sheet),
                writer);
        attach(context, type, ending, title);
        context.result(content);
    }

    /**
     * Takes the way of the command line, files included, so that both give the same document.
     *
     * @param trialFiles trial file and tables
     * @param raw where raw files lie that the trial file names
     */
    static byte[] written(Map<String, byte[]> trialFiles, Map<String, Path> raw, Wording wording, Writer writer)
            throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        throughFiles(trialFiles, folder -> {
            LoadedTrial loaded = loaded(folder, raw);
            Findings findings = Evaluation.of(loaded.trial()).withNotesBefore(loaded.notes());
            writer.write(loaded, findings, wording, bytes);
        });
        return bytes.toByteArray();
    }

    /** Reads the trial file of a folder; the raw files that it names lie where they are kept. */
    static LoadedTrial loaded(Path folder, Map<String, Path> raw) throws IOException {
        return TrialReader.read(
                Files.readString(folder.resolve("trial.yaml")),
                "trial.yaml",
                TrialFiles.of(name -> raw.getOrDefault(name, folder.resolve(name)), ResultCache.ofUser(), false));
    }

    /** Reads what was written. */
    interface Reading {
        void from(Path folder) throws IOException;
    }

    /** Writes files to a folder of their own, lets them be read, and removes them. */
    static void throughFiles(Map<String, byte[]> files, Reading reading) throws IOException {
        Path folder = Files.createTempDirectory("slowproof");
        try {
            for (Map.Entry<String, byte[]> file : files.entrySet()) {
                Files.write(folder.resolve(file.getKey()), file.getValue());
            }
            reading.from(folder);
        } finally {
            try (Stream<Path> left = Files.list(folder)) {
                for (Path file : left.toList()) {
                    Files.delete(file);
                }
            }
            Files.delete(folder);
        }
    }

    /** The trial with its title filled in; what the person confirmed at the bench is confirmed in the file. */
    static Map<String, byte[]> trialFiles(Evaluated evaluated, String title) {
        Trial trial = titled(
                Objects.requireNonNullElseGet(evaluated.meaning().trial(), () -> {
                    throw new NotFoundResponse();
                }),
                title);
        Map<String, byte[]> files = new LinkedHashMap<>(TrialWriter.files(trial, ""));
        String confirmed = Slips.questions(trial).stream()
                .map(question -> question.code().key())
                .distinct()
                .collect(Collectors.joining(", "));
        if (!confirmed.isEmpty()) {
            String yaml = new String(Objects.requireNonNull(files.get("trial.yaml")), StandardCharsets.UTF_8);
            files.put("trial.yaml", (yaml + "confirm: [" + confirmed + "]\n").getBytes(StandardCharsets.UTF_8));
        }
        String recordings = evaluated.sheet().recordings().trial();
        if (!recordings.isEmpty()) {
            String yaml = new String(Objects.requireNonNull(files.get("trial.yaml")), StandardCharsets.UTF_8);
            files.put(
                    "trial.yaml",
                    UploadTrial.merged(yaml, evaluated.sheet().recordings()).getBytes(StandardCharsets.UTF_8));
        }
        return files;
    }

    static Trial titled(Trial trial, String title) {
        return new Trial(
                title,
                trial.sensor(),
                trial.reference(),
                trial.limit(),
                trial.stated(),
                trial.setup(),
                trial.rule(),
                trial.mode(),
                trial.series(),
                trial.recorded(),
                trial.pieces(),
                trial.exclusions());
    }

    static void attach(Context context, String type, String ending, String title) {
        context.contentType(type)
                .header(
                        "Content-Disposition",
                        "attachment; filename=\"" + FileNames.of(title, "trial") + "." + ending + "\"");
    }
}
