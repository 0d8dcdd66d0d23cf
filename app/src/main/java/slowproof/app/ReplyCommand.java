package slowproof.app;

import java.io.IOException;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;
import slowproof.files.in.TrialReader;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.wording.Reply;

/** Prints two or three sentences to paste into a mail. */
final class ReplyCommand implements Command {
    @Override
    public CommandSpec words() {
        CommandSpec spec = Words.speaking(Words.command(
                "reply",
                "./slowproof reply docs/samples/first-trial/trial.yaml --lang de",
                "Prints two or three honest sentences about a trial, to paste into a mail."));
        return spec.addPositional(Words.file("TRIAL.yaml", "The trial file."));
    }

    @Override
    public int run(ParseResult words, Console console) throws IOException {
        Findings findings = Evaluation.of(
                TrialReader.read(Words.fileOf(words), Console.cache()).trial());
        console.out().println(Reply.of(findings, console.wording()));
        return ExitStatus.DONE;
    }
}
