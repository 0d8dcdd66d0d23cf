package slowproof.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;
import slowproof.app.text.FindingsText;
import slowproof.app.text.RecordingsText;
import slowproof.files.in.LoadedTrial;
import slowproof.files.out.FindingsCsv;
import slowproof.files.out.FindingsJson;
import slowproof.files.out.FindingsXlsx;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.wording.Wording;

/** Evaluates a trial. */
final class FindingsCommand implements Command {
    @Override
    public CommandSpec words() {
        CommandSpec spec = Words.speaking(Words.command(
                "findings",
                "./slowproof findings docs/samples/first-trial/trial.yaml --xlsx first-trial.xlsx",
                "Evaluates a trial: errors, repeatability, closure, uncertainty, decision, floor speed."));
        spec.addPositional(Words.file("TRIAL.yaml", "The trial file."));
        spec.addOption(Words.flag("--json", "Prints one JSON document and nothing else."));
        spec.addOption(Words.path("--csv", "FILE", "Writes the table of conditions, values separated by commas."));
        spec.addOption(
                Words.path("--xlsx", "FILE", "Writes answer, passes, conditions, budget and notes as a workbook."));
        spec.addOption(Words.path(
                "--charts",
                "FOLDER",
                "Draws error against speed and dropout share, deviations in order, and each recording, as SVG."));
        return spec.addOption(Words.flag("--explain", "Says what each number means and how every file was read."));
    }

    @Override
    public int run(ParseResult words, Console console) throws IOException {
        Path file = Words.fileOf(words);
        Path charts = Words.pathOf(words, "--charts");
        LoadedTrial loaded = console.trial(file, charts != null);
        Findings findings =
                Evaluation.of(loaded.trial(), ResultCache.drawing(loaded)).withNotesBefore(loaded.notes());
        Wording wording = console.wording();
        if (charts != null) {
            ChartFiles.prepare(charts);
        }
        Path csv = Words.pathOf(words, "--csv");
        if (csv != null) {
            FindingsCsv.write(findings, wording, csv);
        }
        Path xlsx = Words.pathOf(words, "--xlsx");
        if (xlsx != null) {
            FindingsXlsx.write(findings, wording, xlsx);
        }
        Map<String, String> pictures = Map.of();
        if (charts != null) {
            ChartFiles.write(findings, wording, charts);
            pictures = ChartFiles.write(loaded, wording, charts);
        }
        if (words.hasMatchedOption("--json")) {
            FindingsJson.write(
                    findings,
                    Program.envelope(loaded, findings),
                    loaded.sources(),
                    loaded.recordings(),
                    wording,
                    console.out());
            return ExitStatus.DONE;
        }
        console.out().println(FindingsText.render(findings, wording, console.colour(), console.width()));
        if (words.hasMatchedOption("--explain")) {
            console.out().print(RecordingsText.render(loaded, pictures, wording, console.colour(), console.width()));
            console.out().println(FindingsText.explain(wording, console.colour(), console.width()));
        }
        return ExitStatus.DONE;
    }
}
