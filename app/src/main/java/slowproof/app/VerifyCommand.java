package slowproof.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.SourceFile;
import slowproof.files.in.TrialReader;
import slowproof.files.out.JsonLeaves;
import slowproof.trial.input.BadInputException;
import slowproof.wording.Wording;

/** Takes the data out of a written answer and computes them again from the raw files. */
final class VerifyCommand implements Command {
    private static final int LISTED = 20;

    @Override
    public CommandSpec words() {
        CommandSpec spec = Words.speaking(Words.command(
                "verify",
                "./slowproof verify first-trial.pdf --trial docs/samples/first-trial/trial.yaml",
                "Checks a written answer: takes its data out and computes them again from the raw files.",
                "Exit status: 0 the same, 3 something differs, 2 no such document."));
        spec.addPositional(Words.file("F.pdf|F.html", "The document."));
        return spec.addOption(Words.path("--trial", "TRIAL.yaml", "The trial file; else the one beside the document."));
    }

    @Override
    public int run(ParseResult words, Console console) throws IOException {
        Wording wording = console.wording().withAnswer();
        Path document = Words.fileOf(words);
        if (!Files.isReadable(document) || Files.isDirectory(document)) {
            console.err().println(wording.text("written.refused.not_there", document));
            return ExitStatus.WRONG_INPUT;
        }
        Map<String, byte[]> inside = WrittenAnswer.inside(document);
        byte[] findings = inside.get(WrittenAnswer.FINDINGS);
        if (findings == null) {
            console.err().println(wording.text("written.refused.no_data", document));
            return ExitStatus.WRONG_INPUT;
        }
        boolean intact;
        Path trial = Words.pathOf(words, "--trial");
        try {
            intact = SourceFile.fingerprint(findings).equals(WrittenAnswer.issued(inside, "findings_sha256"));
            trial = trial == null ? beside(document, findings) : trial;
        } catch (com.fasterxml.jackson.core.JsonProcessingException e) {
            intact = false;
        }
        console.out().println(wording.text(intact ? "written.verify.intact" : "written.verify.changed"));
        if (trial == null) {
            console.out().println(wording.text("written.verify.not_computed"));
            return intact ? ExitStatus.DONE : ExitStatus.DIFFERS;
        }
        boolean same = computed(trial, inside, findings, wording, console);
        return intact && same ? ExitStatus.DONE : ExitStatus.DIFFERS;
    }

    private static @Nullable Path beside(Path document, byte[] findings) throws IOException {
        String named = JsonLeaves.of(findings).get("source_files[0].file");
        Path own = named == null ? null : Path.of(named).getFileName();
        Path beside = own == null ? null : document.toAbsolutePath().resolveSibling(own);
        return beside != null && Files.isRegularFile(beside) ? beside : null;
    }

    private static boolean computed(
            Path trial, Map<String, byte[]> inside, byte[] findings, Wording wording, Console console)
            throws IOException {
        LoadedTrial loaded;
        try {
            loaded = TrialReader.read(trial, Console.cache());
        } catch (BadInputException e) {
            console.out().println(wording.text("written.verify.unreadable", trial));
            console.out().println(wording.problems(e.problems()).stripTrailing());
            return false;
        }
        // in the language of the document: sentences are compared too
        String language = WrittenAnswer.issued(inside, "language");
        Wording own = Wording.of(java.util.Locale.forLanguageTag(language == null ? "en" : language));
        List<JsonLeaves.Difference> differences =
                WrittenAnswer.differences(findings, new WrittenAnswer(loaded, own).findingsJson());
        if (differences.isEmpty()) {
            console.out().println(wording.text("written.verify.same", trial));
            return true;
        }
        console.out().println(wording.text("written.verify.differs", trial));
        String absent = wording.text("written.verify.absent");
        for (JsonLeaves.Difference difference : differences.subList(0, Math.min(LISTED, differences.size()))) {
            console.out()
                    .println(wording.text(
                            "written.verify.line",
                            difference.place(),
                            difference.one() == null ? absent : difference.one(),
                            difference.other() == null ? absent : difference.other()));
        }
        if (differences.size() > LISTED) {
            console.out().println(wording.text("list.more", differences.size() - LISTED));
        }
        return false;
    }
}
