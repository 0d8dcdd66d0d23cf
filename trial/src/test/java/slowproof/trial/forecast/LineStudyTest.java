package slowproof.trial.forecast;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import slowproof.trial.curve.StudiesPage;

/** Forecasts against the true error of simulated lines. */
class LineStudyTest {
    private static final int USUAL = 300;
    private static final int TRIALS = Integer.getInteger("slowproof.trials", USUAL);
    private static final long SEED = Long.getLong("slowproof.seed", 515_151);

    @Test
    void aFewTrialsHoldTheTruth() {
        LineStudy study = LineStudy.run(71, 12);
        // with 95 % each, fewer than 9 of 12 is a chance of about 1 in 500
        assertThat(study.share(LineStudy.Outcome::meanCovered)).isGreaterThanOrEqualTo(0.75);
        assertThat(study.share(LineStudy.Outcome::ppmCovered)).isGreaterThanOrEqualTo(0.75);
    }

    @Test
    @Tag("long")
    void intervalsHoldTheTruthAsOftenAsTheySay() {
        LineStudy study = LineStudy.run(SEED, TRIALS);
        double mean = study.share(LineStudy.Outcome::meanCovered);
        double ppm = study.share(LineStudy.Outcome::ppmCovered);
        double covered = study.share(o -> o.figures().covered());
        if (TRIALS >= USUAL) {
            StudiesPage.write(
                    "lines",
                    List.of(
                            "| figure | found | demanded |",
                            "|---|---|---|",
                            line("95 % interval of the mean error holds the truth", mean, "0.92 to 0.98"),
                            line("interval of the share outside holds the truth", ppm, "0.90 to 0.99"),
                            line("the line counts as covered", covered, "")));
        }
        // the posterior of the curve is conservative (see the floor), so the upper ends get two standard deviations
        // more
        assertThat(mean).as("mean, share outside %s", ppm).isBetween(0.92, 0.995);
        assertThat(ppm).isBetween(0.90, 0.999);
    }

    private static String line(String what, double found, String demanded) {
        return String.format(Locale.ROOT, "| %s | %.4f | %s |", what, found, demanded);
    }
}
