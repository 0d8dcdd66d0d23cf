package slowproof.app;

import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;
import slowproof.app.web.Reach;
import slowproof.app.web.Rehearsal;
import slowproof.app.web.ServerRefusedException;
import slowproof.archive.ArchivePlace;

/** Serves the pages. */
final class ServeCommand implements Command {
    private static final String REHEARSE = "--rehearse";

    @Override
    public CommandSpec words() {
        CommandSpec spec = Words.speaking(Words.command(
                "serve",
                "./slowproof serve --archive trials --port 7400",
                "Serves the pages on this machine: first figure, bench sheet, trials."));
        Serving.addPlace(spec);
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
        ArchivePlace archive = Serving.place(words);
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
        return Serving.run(archive, reach, console);
    }
}
