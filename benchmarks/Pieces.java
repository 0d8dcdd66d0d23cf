import java.nio.file.Path;
import slowproof.files.in.LineReader;
import slowproof.files.in.TrialReader;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.forecast.Contribution;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecasting;
import slowproof.trial.forecast.Settings;
import slowproof.trial.line.Line;

/** Times the Monte Carlo part of a forecast; prints the figures that pieces.py needs for the same model. */
public final class Pieces {
    public static void main(String[] words) {
        long pieces = Long.parseLong(words[2]);
        LineEvidence evidence =
                LineEvidence.of(Evaluation.of(TrialReader.read(Path.of(words[0])).trial()), "acoustic felt", 1);
        Line line = LineReader.read(Path.of(words[1])).line();
        Settings settings = new Settings(1, pieces, false, Runtime.getRuntime().availableProcessors());
        double best = Double.POSITIVE_INFINITY;
        Forecast.Sampled run = null;
        for (int i = 0; i < 6; i++) {
            long begin = System.nanoTime();
            run = Forecasting.sample(evidence, line, settings);
            best = Math.min(best, (System.nanoTime() - begin) * 1e-9);
        }
        System.out.printf("Slowproof  %7.3f s  mean error %+.5f mm%n", best, run.expectedErrorMm());
        Forecast.Figures figures = Forecasting.of(evidence, line, new Settings(1, 1, false, 1)).figures();
        double[] sd = new double[Contribution.Source.values().length];
        for (Contribution part : figures.contributions()) {
            sd[part.source().ordinal()] = part.standardUncertaintyMm();
        }
        System.err.printf(
                java.util.Locale.ROOT,
                "seconds=%s%nfigures=%d %s %s %s %s %s %s %s %s %s%n",
                best,
                pieces,
                figures.expectedErrorMm(),
                sd[Contribution.Source.CURVE.ordinal()],
                sd[Contribution.Source.REFERENCE.ordinal()],
                sd[Contribution.Source.START_SCATTER.ordinal()] / Math.sqrt(2),
                sd[Contribution.Source.TRAVEL_SCATTER.ordinal()],
                evidence.readingStepMm(),
                sd[Contribution.Source.TRIGGER.ordinal()],
                line.pieces().get(0).lengthMm(),
                line.pieces().get(0).upperMm());
    }
}
