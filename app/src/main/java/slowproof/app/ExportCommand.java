package slowproof.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;
import slowproof.app.web.Parcels;
import slowproof.archive.Archive;
import slowproof.archive.TrialEntry;
import slowproof.files.out.WholeFile;
import slowproof.wording.Wording;

/** Writes a whole trial of an archive as one file. */
final class ExportCommand implements Command {
    private static final int MOST_NAMED = 12;

    @Override
    public CommandSpec words() {
        CommandSpec spec = Words.speaking(Words.command(
                "export",
                "./slowproof export felt cutter -o felt.zip",
                "Writes a whole trial of the archive as one ZIP file: everything recorded, raw files, findings.",
                "./slowproof import takes it into another archive."));
        spec.addPositional(PositionalParamSpec.builder()
                .paramLabel("ID|WORDS")
                .index("0..*")
                .type(List.class)
                .auxiliaryTypes(String.class)
                .description("Id of the trial, as in the address of its page, or words that only this trial has.")
                .build());
        spec.addOption(OptionSpec.builder("-o", "--output")
                .paramLabel("F.zip")
                .type(String.class)
                .description("Where to (default: named after the title).")
                .build());
        return Serving.addPlace(spec);
    }

    @Override
    public int run(ParseResult words, Console console) throws IOException {
        Wording wording = console.wording().withPages();
        List<String> asked = words.matchedPositionalValue(0, List.of());
        try (Archive archive = Archive.open(Serving.place(words), Clock.systemUTC())) {
            String filter = String.join(" ", asked);
            List<TrialEntry> found = archive.find(filter, MOST_NAMED + 1);
            if (found.size() != 1) {
                console.err().println(wording.text(found.isEmpty() ? "export.none" : "export.which", filter));
                found.stream()
                        .limit(MOST_NAMED)
                        .forEach(entry -> console.err().println("  " + entry.id() + "  " + entry.title()));
                return ExitStatus.WRONG_INPUT;
            }
            String trial = found.get(0).id();
            ZoneId zone = ZoneId.systemDefault();
            Path wanted = Words.pathOf(words, "-o");
            Path target = wanted == null ? Path.of(Parcels.fileName(archive, trial, wording, zone)) : wanted;
            WholeFile.write(target, stream -> Parcels.write(archive, trial, wording, zone, stream));
            console.out().println(wording.text("export.done", target));
            return ExitStatus.DONE;
        }
    }
}
