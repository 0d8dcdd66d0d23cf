package slowproof.app;

import java.util.List;
import java.util.stream.Collectors;
import slowproof.files.in.LoadedLine;
import slowproof.files.in.NearestWord;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.findings.Material;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecasting;
import slowproof.trial.forecast.Settings;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.Note;

/** Puts findings and a line together. */
final class Lines {
    private Lines() {}

    /**
     * Returns the forecast.
     *
     * @throws BadInputException if the line names no material of the trial, or none where the trial has several
     */
    static Forecast forecast(Findings findings, LoadedLine loaded, Settings settings) {
        return Forecasting.of(
                LineEvidence.of(findings, material(findings, loaded), Evaluation.USUAL_SEED), loaded.line(), settings);
    }

    /** Says beside the output how the log of a line was read. */
    static void tell(LoadedLine loaded, Console console) {
        for (Note note : loaded.notes()) {
            console.err().println(console.wording().note(note));
        }
    }

    private static String material(Findings findings, LoadedLine loaded) {
        List<String> known =
                findings.materials().stream().map(Material::material).toList();
        String all = known.stream().collect(Collectors.joining(", "));
        SourcePosition at = loaded.materialAt();
        String asked = loaded.line().material();
        if (asked == null) {
            if (known.size() == 1) {
                return known.get(0);
            }
            throw BadInputException.of(ProblemCode.LINE_MATERIAL_MISSING, at, all);
        }
        if (!known.contains(asked)) {
            throw BadInputException.of(ProblemCode.LINE_MATERIAL, at, asked, NearestWord.of(asked, known), all);
        }
        return asked;
    }
}
