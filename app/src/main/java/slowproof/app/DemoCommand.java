package slowproof.app;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;
import slowproof.app.demo.DemoArchive;
import slowproof.app.text.FindingsText;
import slowproof.app.web.Reach;
import slowproof.archive.ArchivePlace;
import slowproof.files.in.LineReader;
import slowproof.files.in.TrialReader;
import slowproof.files.out.TrialWriter;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.forecast.Settings;
import slowproof.wording.LineReply;
import slowproof.wording.Reply;
import slowproof.wording.Wording;

/** Writes an invented trial, evaluates it and prints what it says. */
final class DemoCommand implements Command {
    private static final String FOLDER = "slowproof-demo";
    private static final String REMARK =
            "Invented numbers: a plant that cuts acoustic felt, aluminium-faced glass fabric and clear film.";

    @Override
    public CommandSpec words() {
        CommandSpec spec = Words.speaking(Words.command(
                "demo",
                "./slowproof demo --once --folder my-first-trial",
                "Shows an invented plant: writes a trial, prints findings and reply, and serves the pages.",
                "Files that are there already are kept: edit them and run the demo again."));
        spec.addOption(Words.flag("--once", "Stops after printing."));
        spec.addOption(Words.path("--folder", "DIR", "Where the trial files are written (default: " + FOLDER + ")."));
        spec.addOption(Words.number("--port", "Port of the pages."));
        return spec.addOption(Words.path("--archive", "DIR", "Folder of the archive that the pages show."));
    }

    @Override
    public int run(ParseResult words, Console console) throws IOException {
        Path asked = Words.pathOf(words, "--folder");
        Path folder = asked == null ? Path.of(FOLDER) : asked;
        Path file = folder.resolve("trial.yaml");
        Wording wording = console.wording();
        boolean kept = Files.exists(file);
        if (!kept) {
            TrialWriter.write(DemoTrial.make(), REMARK, folder);
        }
        console.err().println(wording.text(kept ? "demo.kept" : "demo.written", folder.toString()));
        Findings findings = Evaluation.of(TrialReader.read(file).trial());
        PrintStream out = console.out();
        out.println(FindingsText.render(findings, wording, console.colour(), console.width()));
        out.println(wording.text("demo.reply"));
        out.println(Reply.of(findings, wording));
        Path lineFile = folder.resolve(DemoLine.FILE);
        if (!kept || !Files.exists(lineFile)) {
            DemoLine.write(lineFile);
        }
        out.println();
        out.println(wording.text("demo.line", lineFile.toString()));
        out.println(LineReply.of(
                Lines.forecast(findings, LineReader.read(lineFile), Settings.of(Evaluation.USUAL_SEED)), wording));
        if (words.hasMatchedOption("--once")) {
            return ExitStatus.DONE;
        }
        Path archive = Words.pathOf(words, "--archive");
        ZoneId here = ZoneId.systemDefault();
        return Serving.run(
                new ArchivePlace.Folder(archive == null ? folder.resolve("archive") : archive),
                Reach.of(null, Words.numberOf(words, "--port"), null),
                console,
                empty -> DemoArchive.fill(empty, findings.trial(), LocalDate.now(here), here));
    }
}
