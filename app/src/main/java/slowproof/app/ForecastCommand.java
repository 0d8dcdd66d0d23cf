package slowproof.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Objects;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;
import slowproof.app.text.ForecastText;
import slowproof.files.in.LineReader;
import slowproof.files.in.LoadedLine;
import slowproof.files.in.LoadedTrial;
import slowproof.files.out.ForecastCsv;
import slowproof.files.out.ForecastJson;
import slowproof.files.out.ForecastXlsx;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Settings;

/** Forecasts the length error of pieces on a line. */
final class ForecastCommand implements Command {
    static final String LINE = "--line";
    private static final String PIECES = "--pieces";
    private static final String SEED = "--seed";

    @Override
    public CommandSpec words() {
        CommandSpec spec = Words.speaking(Words.command(
                "forecast",
                "./slowproof forecast slowproof-demo/trial.yaml --line slowproof-demo/line.yaml",
                "Forecasts from a trial the length error of pieces on a line.",
                "Expected error, spread, share outside the tolerance, what can be promised, what one change buys, and what the"
                        + " trial does not cover."));
        spec.addPositional(Words.file("TRIAL.yaml", "The trial file."));
        spec.addOption(line(true));
        spec.addOption(Words.flag("--json", "Prints one JSON document and nothing else."));
        spec.addOption(Words.path("--csv", "FILE", "Writes the figures, values separated by commas."));
        spec.addOption(Words.path("--xlsx", "FILE", "Writes answer, figures and tables as a workbook."));
        spec.addOption(Words.path(
                "--charts", "FOLDER", "Draws how pieces deviate, sources, speed, error and promise as SVG."));
        spec.addOption(
                Words.number(PIECES, "Pieces of the Monte Carlo run, exactly (default: until two digits are stable)."));
        return spec.addOption(OptionSpec.builder(SEED)
                .paramLabel("S")
                .type(Long.class)
                .description("Seed of the random numbers (default: 1).")
                .build());
    }

    static OptionSpec line(boolean required) {
        return OptionSpec.builder(LINE)
                .paramLabel("LINE.yaml")
                .type(String.class)
                .required(required)
                .description("The line file.")
                .build();
    }

    @Override
    public int run(ParseResult words, Console console) throws IOException {
        Integer pieces = Words.numberOf(words, PIECES);
        if (pieces != null && pieces < 2) {
            console.err().println(console.wording().text("forecast.pieces", pieces));
            return ExitStatus.WRONG_INPUT;
        }
        LoadedLine line = LineReader.read(Objects.requireNonNull(Words.pathOf(words, LINE)));
        Lines.tell(line, console);
        LoadedTrial trial = console.trial(Words.fileOf(words), false);
        long seed = words.matchedOptionValue(SEED, Evaluation.USUAL_SEED);
        boolean terminal = console.colour();
        if (terminal) {
            console.err().println(console.wording().text("forecast.working"));
        }
        Findings findings = Evaluation.of(trial.trial(), ResultCache.drawing(trial));
        Settings usual = Settings.of(seed);
        Forecast forecast = Lines.forecast(
                findings, line, pieces == null ? usual : new Settings(seed, pieces, false, usual.threads()));
        Path charts = Words.pathOf(words, "--charts");
        if (charts != null) {
            ChartFiles.prepare(charts);
            ChartFiles.write(forecast, seed, console.wording(), charts);
        }
        Path csv = Words.pathOf(words, "--csv");
        if (csv != null) {
            ForecastCsv.write(forecast, console.wording(), csv);
        }
        Path xlsx = Words.pathOf(words, "--xlsx");
        if (xlsx != null) {
            ForecastXlsx.write(forecast, console.wording(), xlsx);
        }
        if (words.hasMatchedOption("--json")) {
            LoadedTrial all = trial.with(line);
            ForecastJson.write(forecast, Program.envelope(all, seed), all.sources(), console.wording(), console.out());
            return ExitStatus.DONE;
        }
        console.out().println(ForecastText.render(forecast, console.wording(), console.colour(), console.width()));
        return ExitStatus.DONE;
    }
}
