package slowproof.app;

import java.io.IOException;
import java.nio.file.Path;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;
import slowproof.files.in.LineReader;
import slowproof.files.in.LoadedLine;
import slowproof.files.in.LoadedTrial;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.forecast.Settings;
import slowproof.wording.LineReply;
import slowproof.wording.Reply;

/** Prints two or three sentences to paste into a mail. */
final class ReplyCommand implements Command {
    @Override
    public CommandSpec words() {
        CommandSpec spec = Words.speaking(Words.command(
                "reply",
                "./slowproof reply docs/samples/first-trial/trial.yaml --lang de",
                "Prints two or three honest sentences about a trial, to paste into a mail."));
        spec.addPositional(Words.file("TRIAL.yaml", "The trial file."));
        return spec.addOption(ForecastCommand.line(false));
    }

    @Override
    public int run(ParseResult words, Console console) throws IOException {
        Path lineFile = Words.pathOf(words, ForecastCommand.LINE);
        LoadedLine line = lineFile == null ? null : LineReader.read(lineFile);
        LoadedTrial loaded = console.trial(Words.fileOf(words), false);
        Findings findings = Evaluation.of(loaded.trial(), ResultCache.drawing(loaded));
        if (line == null) {
            console.out().println(Reply.of(findings, console.wording()));
        } else {
            Lines.tell(line, console);
            console.out()
                    .println(LineReply.of(
                            Lines.forecast(findings, line, Settings.of(Evaluation.USUAL_SEED)), console.wording()));
        }
        return ExitStatus.DONE;
    }
}
