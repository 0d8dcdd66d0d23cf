package slowproof.trial.curve;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** The small version of the studies; the full one is {@link CurveLongStudyTest}. */
class CurveStudyTest {
    private static final long SEED = Long.getLong("slowproof.seed", 20_261);
    private static final int TRIALS = Integer.getInteger("slowproof.trials", 40);

    @Test
    void bandAndFloorHoldTheTruthOfRandomBenches() {
        CurveStudy study = CurveStudy.run(SEED, TRIALS, 1.25, 5, 1000);
        String figures = "seed " + SEED + ", " + study.figures();
        // with few trials the demanded shares are widened by about two standard deviations of the share
        double slack = 2 * Math.sqrt(0.05 * 0.95 / TRIALS);
        assertThat(study.bandCoverage()).as(figures).isBetween(0.93 - slack / 3, 0.98 + slack / 3);
        assertThat(study.share(CurveStudy.Outcome::covered)).as(figures).isGreaterThanOrEqualTo(0.93 - slack);
        assertThat(study.quantile(CurveStudy.Outcome::width, 0.5)).as(figures).isLessThanOrEqualTo(0.09 * (1 + slack));
        assertThat(Math.abs(study.meanBias())).as(figures).isLessThan(0.01);
        assertThat(study.share(CurveStudy.Outcome::promiseKept)).as(figures).isGreaterThanOrEqualTo(0.95 - slack);
    }
}
