package slowproof.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Objects;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;
import slowproof.files.in.LineReader;
import slowproof.files.in.LoadedLine;
import slowproof.files.out.WholeFile;
import slowproof.report.answer.Paper;
import slowproof.wording.Wording;

/** Writes the answer as a document. */
final class ReportCommand implements Command {
    private static final String REASON = "--reason";

    @Override
    public CommandSpec words() {
        CommandSpec spec = Words.speaking(Words.command(
                "report",
                "./slowproof report docs/samples/first-trial/trial.yaml -o first-trial.pdf",
                "Writes the answer as a document, PDF/A-3 or HTML, with its data inside."));
        spec.addPositional(Words.file("TRIAL.yaml", "The trial file."));
        spec.addOption(ForecastCommand.line(false));
        spec.addOption(OptionSpec.builder("-o", "--output")
                .paramLabel("F.pdf|F.html")
                .type(String.class)
                .required(true)
                .description("Where to.")
                .build());
        spec.addOption(OptionSpec.builder("--paper")
                .paramLabel("a4|letter")
                .type(Paper.class)
                .description("Size of the page: a4 (usual), letter.")
                .build());
        spec.addOption(Words.text("--release", "NAME", "Releases it in the name of a person; else it is a draft."));
        spec.addOption(Words.text("--date", "DATE", "Date of the release, such as 2026-11-26."));
        spec.addOption(Words.path(
                "--supersedes", "FILE", "A released answer that this one supersedes; what changed is said."));
        return spec.addOption(Words.text(REASON, "TEXT", "Why it supersedes it; with --supersedes."));
    }

    @Override
    public int run(ParseResult words, Console console) throws IOException {
        Wording wording = console.wording().withAnswer();
        Path target = Path.of(words.matchedOptionValue("-o", ""));
        String name = target.toString().toLowerCase(Locale.ROOT);
        boolean html = name.endsWith(".html");
        if (!html && !name.endsWith(".pdf")) {
            return refused(console, wording.text("written.refused.suffix", target));
        }
        String person = Words.textOf(words, "--release");
        String date = Words.textOf(words, "--date");
        if ((person == null) != (date == null) || (person != null && person.isBlank())) {
            return refused(console, wording.text("written.refused.release"));
        }
        if (date != null && !Days.isDay(date)) {
            return refused(console, wording.text("written.refused.date", date));
        }
        if (Files.isRegularFile(target)) {
            String by = IssuedData.issued(WrittenAnswer.inside(target), "released_by");
            if (by != null) {
                return refused(console, wording.text("written.refused.released", target, by));
            }
        }
        Path earlier = Words.pathOf(words, "--supersedes");
        if (earlier == null && Words.textOf(words, REASON) != null) {
            return refused(console, wording.text("written.refused.reason"));
        }
        WrittenAnswer.Superseded superseded = null;
        if (earlier != null) {
            if (!Files.isReadable(earlier)) {
                return refused(console, wording.text("written.refused.not_there", earlier));
            }
            superseded = WrittenAnswer.Superseded.read(
                    earlier,
                    Objects.requireNonNullElse(Words.textOf(words, REASON), "").strip());
            if (superseded == null) {
                return refused(console, wording.text("written.refused.no_data", earlier));
            }
        }
        Path lineFile = Words.pathOf(words, ForecastCommand.LINE);
        LoadedLine line = lineFile == null ? null : LineReader.read(lineFile);
        WrittenAnswer answer = new WrittenAnswer(console.trial(Words.fileOf(words), false), line, console.wording());
        byte[] document = answer.write(
                html,
                words.matchedOptionValue("--paper", Paper.A4),
                person == null || date == null ? null : new WrittenAnswer.Release(person, date),
                superseded);
        WholeFile.write(target, stream -> stream.write(document));
        console.out().println(wording.text("written.done", target));
        return ExitStatus.DONE;
    }

    private static int refused(Console console, String message) {
        console.err().println(message);
        return ExitStatus.WRONG_INPUT;
    }
}
