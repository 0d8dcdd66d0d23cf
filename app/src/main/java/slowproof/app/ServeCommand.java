package slowproof.app;

import java.nio.file.Path;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;
import slowproof.app.web.Rehearsal;

/** Serves the pages. */
final class ServeCommand implements Command {
    private static final String REHEARSE = "--rehearse";

    @Override
    public CommandSpec words() {
        CommandSpec spec = Words.speaking(Words.command(
                "serve",
                "./slowproof serve --archive trials --port 7400",
                "Serves the pages on this machine: first figure, bench sheet, trials."));
        spec.addOption(Words.path("--archive", "DIR", "Folder of the archive (default: in your data folder)."));
        spec.addOption(Words.number("--port", "Port (default: 7340)."));
        return spec.addOption(OptionSpec.builder(REHEARSE)
                .description("Starts, asks itself for its pages and stops.")
                .hidden(true)
                .build());
    }

    @Override
    public int run(ParseResult words, Console console) {
        if (words.hasMatchedOption(REHEARSE)) {
            Rehearsal.run();
            return ExitStatus.DONE;
        }
        Path archive = Words.pathOf(words, "--archive");
        return Serving.run(
                archive == null ? Serving.usualArchive() : archive, Words.numberOf(words, "--port"), console);
    }
}
