package slowproof.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;
import slowproof.app.web.Parcels;
import slowproof.archive.Archive;
import slowproof.archive.TakenIn;
import slowproof.archive.parcel.ParcelRefusedException;
import slowproof.wording.Wording;

/** Takes whole trials into an archive. */
final class ImportCommand implements Command {
    @Override
    public CommandSpec words() {
        CommandSpec spec = Words.speaking(Words.command(
                "import",
                "./slowproof import felt.zip --archive trials",
                "Takes whole trials, as export and the pages write them, into the archive.",
                "Each is taken in whole or not at all; one that is here already stays as it is."));
        spec.addPositional(PositionalParamSpec.builder()
                .paramLabel("F.zip")
                .index("0..*")
                .arity("1..*")
                .type(List.class)
                .auxiliaryTypes(String.class)
                .required(true)
                .description("The files.")
                .build());
        return Serving.addPlace(spec);
    }

    @Override
    public int run(ParseResult words, Console console) throws IOException {
        Wording wording = console.wording().withPages();
        int status = ExitStatus.DONE;
        List<String> files = words.matchedPositionalValue(0, List.of());
        try (Archive archive = Archive.open(Serving.place(words), Clock.systemUTC())) {
            for (String named : files) {
                Path file = Path.of(named);
                if (!Files.isReadable(file) || Files.isDirectory(file)) {
                    console.err().println(wording.text("import.not_there", file));
                    status = ExitStatus.WRONG_INPUT;
                    continue;
                }
                try {
                    TakenIn taken = Parcels.takeIn(file, archive);
                    console.out()
                            .println(wording.text(
                                    "import." + taken.outcome().name().toLowerCase(Locale.ROOT),
                                    file,
                                    taken.trial(),
                                    taken.seq()));
                } catch (ParcelRefusedException e) {
                    console.err().println(file + ": " + Parcels.sentence(e, wording));
                    status = ExitStatus.WRONG_INPUT;
                }
            }
        }
        return status;
    }
}
