package slowproof.app;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;
import slowproof.files.in.LineReader;
import slowproof.files.in.LoadedLine;
import slowproof.files.in.LoadedTrial;
import slowproof.files.out.JsonLeaves;
import slowproof.trial.input.BadInputException;
import slowproof.wording.Wording;

/** Takes the data out of a written answer and computes them again from the raw files. */
final class VerifyCommand implements Command {
    private static final int LISTED = 20;
    private static final String FILES = "source_files[";
    private static final String SHA = ".sha256";

    @Override
    public CommandSpec words() {
        CommandSpec spec = Words.speaking(Words.command(
                "verify",
                "./slowproof verify first-trial.pdf --trial docs/samples/first-trial/trial.yaml",
                "Checks a written answer: takes its data out and computes them again from the raw files.",
                "Exit status: 0 the same, 3 something differs, 2 no such document."));
        spec.addPositional(Words.file("F.pdf|F.html", "The document."));
        spec.addOption(Words.path("--line", "LINE.yaml", "The line file; else the one beside the document."));
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
        if (inside.get(WrittenAnswer.FINDINGS) == null) {
            console.err().println(wording.text("written.refused.no_data", document));
            return ExitStatus.WRONG_INPUT;
        }
        List<String> changed = IssuedData.changed(inside);
        if (changed.isEmpty()) {
            console.out().println(wording.text("written.verify.intact"));
        }
        changed.forEach(name -> console.out().println(wording.text("written.verify.changed", name)));
        Path trial = Words.pathOf(words, "--trial");
        trial = trial == null ? beside(document, IssuedData.trialFile(inside)) : trial;
        if (trial == null) {
            console.out().println(wording.text("written.verify.not_computed"));
            return changed.isEmpty() ? ExitStatus.DONE : ExitStatus.DIFFERS;
        }
        Path line = Words.pathOf(words, ForecastCommand.LINE);
        line = line == null ? beside(document, IssuedData.issued(inside, "line_file")) : line;
        boolean same = computed(trial, line, inside, wording, console);
        return changed.isEmpty() && same ? ExitStatus.DONE : ExitStatus.DIFFERS;
    }

    private static @Nullable Path beside(Path document, @Nullable String named) {
        Path own = named == null ? null : Path.of(named).getFileName();
        Path beside = own == null ? null : document.toAbsolutePath().resolveSibling(own);
        return beside != null && Files.isRegularFile(beside) ? beside : null;
    }

    private static boolean computed(
            Path trial, @Nullable Path line, Map<String, byte[]> inside, Wording wording, Console console)
            throws IOException {
        Map<String, byte[]> written = new LinkedHashMap<>(inside);
        boolean withLine = inside.get(WrittenAnswer.FORECAST) != null;
        if (withLine && line == null) {
            console.out().println(wording.text("written.verify.line_not_computed"));
            written.remove(WrittenAnswer.FORECAST);
        }
        // in the language of the document: sentences are compared too
        String language = IssuedData.issued(inside, "language");
        Wording own = Wording.of(Locale.forLanguageTag(language == null ? "en" : language));
        Map<String, byte[]> computed;
        try {
            LoadedTrial loaded = console.trial(trial, false);
            LoadedLine read = withLine && line != null ? LineReader.read(line) : null;
            computed = new WrittenAnswer(loaded, read, own).figures();
        } catch (BadInputException e) {
            console.out().println(wording.text("written.verify.unreadable", trial));
            console.out().println(wording.problems(e.problems()).stripTrailing());
            return false;
        }
        Map<String, String> files;
        List<JsonLeaves.Difference> differences;
        try {
            files = WrittenAnswer.placed(written);
            differences = JsonLeaves.differences(files, WrittenAnswer.placed(computed));
        } catch (JsonProcessingException e) {
            // its fingerprint has been found wrong already
            return false;
        }
        if (differences.isEmpty()) {
            console.out().println(wording.text("written.verify.same", trial));
            return true;
        }
        console.out().println(wording.text("written.verify.differs", trial));
        for (JsonLeaves.Difference difference : differences.subList(0, Math.min(LISTED, differences.size()))) {
            console.out().println(said(difference, files, wording));
        }
        if (differences.size() > LISTED) {
            console.out().println(wording.text("list.more", differences.size() - LISTED));
        }
        return false;
    }

    /** A fingerprint that differs names its file; every other figure its place. */
    private static String said(JsonLeaves.Difference difference, Map<String, String> written, Wording wording) {
        String absent = wording.text("written.verify.absent");
        String one = Objects.requireNonNullElse(difference.one(), absent);
        String other = Objects.requireNonNullElse(difference.other(), absent);
        String place = difference.place();
        if (place.contains(FILES) && place.endsWith(SHA)) {
            String file = written.get(place.substring(0, place.length() - SHA.length()) + ".file");
            // the trial file goes by no name: it may be renamed
            return wording.text(
                    file == null ? "written.verify.trial_file" : "written.verify.file",
                    one,
                    other,
                    Objects.requireNonNullElse(file, ""));
        }
        return wording.text("written.verify.line", place, one, other);
    }
}
