package slowproof.app;

import java.nio.file.Path;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;
import slowproof.app.web.Reach;
import slowproof.app.web.Rehearsal;
import slowproof.app.web.ServerRefusedException;

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
        spec.addOption(Words.text(
                "--host", "ADDRESS", "Address of this machine to listen on (default: 127.0.0.1, this machine alone)."));
        spec.addOption(Words.text(
                "--reached-as",
                "URL",
                "Address that others type, as https://name: everybody then logs in (docs/security.md)."));
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
        Reach reach;
        try {
            reach = Reach.of(
                    Words.textOf(words, "--host"),
                    Words.numberOf(words, "--port"),
                    Words.textOf(words, "--reached-as"));
        } catch (ServerRefusedException e) {
            console.err().println(e.sentence(console.wording()));
            return ExitStatus.WRONG_INPUT;
        }
        return Serving.run(archive == null ? Serving.usualArchive() : archive, reach, console);
    }
}
