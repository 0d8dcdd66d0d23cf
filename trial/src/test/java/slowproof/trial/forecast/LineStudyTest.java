package slowproof.trial.forecast;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import slowproof.trial.curve.StudiesPage;
import slowproof.trial.forecast.Contribution.Source;
import slowproof.trial.forecast.LineStudy.Outcome;

/** Forecasts against the true error of simulated lines. */
class LineStudyTest {
    private static final int USUAL = 300;
    private static final int TRIALS = Integer.getInteger("slowproof.trials", USUAL);
    private static final long SEED = Long.getLong("slowproof.seed", 515_151);

    @Test
    void aFewTrialsHoldTheTruth() {
        LineStudy study = LineStudy.run(71, 12);
        // with 95 % each, fewer than 9 of 12 is a chance of about 1 in 500
        for (List<Outcome> outcomes : List.of(study.tested, study.between)) {
            assertThat(LineStudy.share(outcomes, Outcome::meanCovered)).isGreaterThanOrEqualTo(0.75);
            assertThat(LineStudy.share(outcomes, Outcome::ppmCovered)).isGreaterThanOrEqualTo(0.75);
        }
    }

    @Test
    @Tag("long")
    void intervalsHoldTheTruthAsOftenAsTheySay() {
        LineStudy study = LineStudy.run(SEED, TRIALS);
        if (TRIALS >= USUAL) {
            StudiesPage.write("lines", table(study));
        }
        for (List<Outcome> outcomes : List.of(study.tested, study.between)) {
            double mean = LineStudy.share(outcomes, Outcome::meanCovered);
            double ppm = LineStudy.share(outcomes, Outcome::ppmCovered);
            assertThat(mean).as("mean, share outside %s", ppm).isBetween(0.92, 0.98);
            assertThat(ppm).isBetween(0.90, 0.99);
        }
    }

    private static List<String> table(LineStudy study) {
        List<String> lines = new ArrayList<>();
        lines.add("| figure | creep at a tested speed | creep at any speed | demanded |");
        lines.add("|---|---|---|---|");
        lines.add(line(study, "95 % interval of the mean error holds the truth", Outcome::meanCovered, "0.92 to 0.98"));
        lines.add(line(study, "interval of the share outside holds the truth", Outcome::ppmCovered, "0.90 to 0.99"));
        lines.add(line(study, "the line counts as covered", o -> o.figures().covered(), ""));
        lines.add(number(study, "error over its stated u, rms", LineStudyTest::standardised));
        lines.add(number(study, "u of the mean error, median, mm", LineStudyTest::uncertainty));
        for (Source source : List.of(Source.CURVE, Source.REFERENCE, Source.START_SCATTER, Source.TRAVEL_SCATTER)) {
            String name = source.key().replace('_', ' ');
            lines.add(number(study, name + ", mean of the standard uncertainties, mm", all -> mean(all, source)));
        }
        return lines;
    }

    private static double standardised(List<Outcome> outcomes) {
        return Math.sqrt(outcomes.stream()
                .mapToDouble(o -> o.standardised() * o.standardised())
                .average()
                .orElse(0));
    }

    private static double uncertainty(List<Outcome> outcomes) {
        double[] sorted = outcomes.stream()
                .mapToDouble(o -> o.figures().meanUncertaintyMm())
                .sorted()
                .toArray();
        return sorted[sorted.length / 2];
    }

    private static double mean(List<Outcome> outcomes, Source source) {
        return outcomes.stream()
                .mapToDouble(o -> o.uncertaintyMm(source))
                .average()
                .orElse(0);
    }

    private static String line(LineStudy study, String what, Predicate<Outcome> holds, String demanded) {
        return String.format(
                Locale.ROOT,
                "| %s | %.4f | %.4f | %s |",
                what,
                LineStudy.share(study.tested, holds),
                LineStudy.share(study.between, holds),
                demanded);
    }

    private static String number(LineStudy study, String what, ToDoubleFunction<List<Outcome>> of) {
        return String.format(
                Locale.ROOT,
                "| %s | %.4f | %.4f |  |",
                what,
                of.applyAsDouble(study.tested),
                of.applyAsDouble(study.between));
    }
}
