package slowproof.trial.curve;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import slowproof.trial.curve.CurveStudy.Outcome;
import slowproof.trial.curve.FloorEstimate.Status;
import slowproof.trial.scatter.VarianceComponents.SplitReason;
import slowproof.trial.simulator.CurveShape;
import slowproof.trial.simulator.Population;
import slowproof.trial.simulator.SlowRise;

/**
 * The long studies with known truth. They assert what is demanded and write what was found to {@code docs/studies.md}
 * (not when fewer trials than usual are asked for).
 */
@Tag("long")
class CurveLongStudyTest {
    private static final long SEED = Long.getLong("slowproof.seed", 424_242);
    private static final int USUAL = 500;
    private static final int TRIALS = Integer.getInteger("slowproof.trials", USUAL);
    private static final int DRAWS = CurveSettings.USUAL_DRAWS;
    private static final int LEAST_CLASS = 40;

    @Test
    void standardLadderHoldsTheTruth() {
        CurveStudy study = CurveStudy.run(SEED, TRIALS, 1.25, 5, DRAWS);
        List<String> lines = new ArrayList<>(head());
        demand(lines, "band holds the truth at tested speeds", study.bandCoverage(), "0.93 to 0.98");
        demand(
                lines,
                "the same at the least place of the ladder",
                Arrays.stream(study.bandCoverageByPlace()).min().orElseThrow(),
                "at least 0.90");
        demand(
                lines,
                "simultaneous band holds the truth at all tested speeds",
                study.share(Outcome::inSimultaneousBand),
                "");
        demand(lines, "interval of the floor holds the truth", study.share(Outcome::covered), "at least 0.93");
        demand(
                lines,
                "width of the interval over the floor, median",
                study.quantile(Outcome::width, 0.5),
                "at most 0.09");
        demand(lines, "width of the interval over the floor, 90 % quantile", study.quantile(Outcome::width, 0.9), "");
        demand(lines, "bias of the estimated floor, mean", study.meanBias(), "within 0.01");
        demand(lines, "proven floor is not below the truth", study.share(Outcome::promiseKept), "at least 0.95");
        demand(lines, "status \"found\"", study.statusShare(Status.FOUND), "");
        demand(lines, "band widened for lack of fit", study.share(Outcome::widened), "");
        demand(lines, "fallen back to a bracket", 1 - study.share(Outcome::hasCurve), "");
        write("standard ladder", lines);
        write("standard ladder, classes", classes(study));
        String figures = study.figures();
        assertThat(study.bandCoverage()).as(figures).isBetween(0.93, 0.98);
        assertThat(Arrays.stream(study.bandCoverageByPlace()).min().orElseThrow())
                .as(figures)
                .isGreaterThanOrEqualTo(0.90 - allowance(0.1));
        assertThat(study.share(Outcome::covered)).as(figures).isGreaterThanOrEqualTo(0.93);
        assertThat(study.quantile(Outcome::width, 0.5)).as(figures).isLessThanOrEqualTo(0.09);
        assertThat(Math.abs(study.meanBias())).as(figures).isLessThan(0.01);
        assertThat(study.share(Outcome::promiseKept)).as(figures).isGreaterThanOrEqualTo(0.95);
    }

    @Test
    void coarseLadderHoldsTheTruth() {
        CurveStudy study = CurveStudy.run(SEED + 1, TRIALS, 1.5, 5, DRAWS);
        write("ladder 1.5", short4(study));
        assertThat(study.share(Outcome::covered)).as(study.figures()).isGreaterThanOrEqualTo(0.92);
    }

    @Test
    void twoCyclesHoldTheTruth() {
        CurveStudy study = CurveStudy.run(SEED + 2, TRIALS, 1.25, 2, DRAWS);
        write("two cycles", short4(study));
        assertThat(study.share(Outcome::covered)).as(study.figures()).isGreaterThanOrEqualTo(0.92);
    }

    @Test
    void limitThatHoldsThroughoutOrNowhereIsSeldomDenied() {
        CurveStudy throughout = CurveStudy.run(SEED + 3, TRIALS, 1.25, 5, DRAWS, Population::drawHoldingThroughout);
        CurveStudy nowhere = CurveStudy.run(SEED + 4, TRIALS, 1.25, 5, DRAWS, Population::drawHoldingNowhere);
        List<String> lines = new ArrayList<>();
        lines.add("| truth | found | bracket | holds throughout | holds in a band | does not hold | undecided |");
        lines.add("|---|---|---|---|---|---|---|");
        lines.add(statuses("holds throughout", throughout));
        lines.add(statuses("holds at no speed", nowhere));
        write("statuses", lines);
        assertThat(throughout.statusShare(Status.DOES_NOT_HOLD)).isLessThanOrEqualTo(0.01);
        assertThat(throughout.share(Outcome::covered)).isGreaterThanOrEqualTo(0.93);
        assertThat(nowhere.share(o -> o.floor().proven() != null)).isLessThanOrEqualTo(0.05);
    }

    @Test
    void assumptionsThatFailDoNotHideIt() {
        List<String> lines = new ArrayList<>();
        lines.add(
                "| what is wrong with the assumptions | band | floor held | proven kept | width, median | widened | bracket |");
        lines.add("|---|---|---|---|---|---|---|");
        CurveStudy growing = CurveStudy.run(SEED + 5, TRIALS, 1.25, 5, DRAWS, streams -> {
            Population.Sample sample = Population.draw(streams);
            SlowRise factor = new SlowRise(1, 5, sample.curve().kneeMmPerS(), 0.3);
            return with(sample, factor, 0);
        });
        lines.add(wrong("scatter five times as large below the knee", growing));
        CurveStudy series = CurveStudy.run(
                SEED + 6,
                TRIALS,
                1.25,
                5,
                DRAWS,
                streams -> with(Population.draw(streams), SlowRise.constant(1), 1e-4));
        lines.add(wrong(
                "each series has a scale error of its own, 0.01 % standard deviation, one series per speed", series));
        write("failing assumptions", lines);
        assertThat(growing.bandCoverage()).isBetween(0.92, 0.99);
        assertThat(growing.share(Outcome::covered)).isGreaterThanOrEqualTo(0.92);
        assertThat(series.bandCoverage()).isGreaterThanOrEqualTo(0.85);
    }

    @Test
    void componentsAreFoundWithTwoStrokesAndRefusedWithOne() {
        ComponentStudy two = ComponentStudy.run(SEED + 7, TRIALS, 100, 3000);
        ComponentStudy one = ComponentStudy.run(SEED + 8, 100, 1000);
        List<String> lines = new ArrayList<>(head());
        demand(lines, "start scatter within a factor of 1.5", two.startWithin(1.5), "at least 0.90");
        demand(lines, "travel scatter within a factor of 1.5", two.travelWithin(1.5), "at least 0.90");
        demand(lines, "interval of the start scatter holds the truth", two.startCovered(), "");
        demand(lines, "interval of the travel scatter holds the truth", two.travelCovered(), "");
        long refused = one.outcomes.stream()
                .filter(o -> o.found().startScatterMm() == null && o.found().splitReason() == SplitReason.ONE_STROKE)
                .count();
        demand(lines, "one stroke: refused with the reason", refused / 100.0, "1");
        write("variance components", lines);
        assertThat(two.startWithin(1.5)).isGreaterThanOrEqualTo(0.90);
        assertThat(two.travelWithin(1.5)).isGreaterThanOrEqualTo(0.90);
        assertThat(refused).isEqualTo(100);
    }

    @Test
    void bracketsOfThinTrialsHoldTheTruth() {
        ThinStudy study = ThinStudy.run(SEED + 9, 2 * TRIALS);
        List<String> lines = new ArrayList<>(head());
        demand(lines, "bracket holds the true floor", study.shareBracketRight(), "at least 0.95");
        demand(lines, "any claim is right", study.shareRight(), "at least 0.95");
        demand(lines, "a bracket is given", study.shareBracket(), "");
        demand(lines, "ratio of the bracket's ends, median", study.medianRatio(), "");
        write("thin trials", lines);
        assertThat(study.shareBracketRight()).as(study.figures()).isGreaterThanOrEqualTo(0.95);
        assertThat(study.shareRight()).as(study.figures()).isGreaterThanOrEqualTo(0.95);
    }

    private static Population.Sample with(Population.Sample sample, SlowRise scatter, double series) {
        return new Population.Sample(
                sample.material().withScatterFactor(scatter).withSeriesScatter(series),
                sample.curve(),
                sample.limitRatio(),
                sample.strokeMm(),
                sample.accelerationMmPerS2(),
                sample.streams());
    }

    private static List<String> classes(CurveStudy study) {
        List<String> lines = new ArrayList<>();
        lines.add("| class | trials | floor held | width, median |");
        lines.add("|---|---|---|---|");
        for (CurveShape shape : CurveShape.values()) {
            lines.add(
                    oneClass(shape.name().toLowerCase(Locale.ROOT).replace('_', ' '), study, o -> o.shape() == shape));
        }
        double[] widths = {0.05, 0.10, 0.15, 0.20, 0.25};
        for (int i = 0; i + 1 < widths.length; i++) {
            double low = widths[i];
            double high = widths[i + 1];
            lines.add(oneClass(
                    String.format(Locale.ROOT, "knee width %.0f to %.0f %% of the knee", 100 * low, 100 * high),
                    study,
                    o -> o.widthShare() >= low && o.widthShare() < high));
        }
        double[] margins = {0, 0.25, 0.5, 1};
        for (int i = 0; i + 1 < margins.length; i++) {
            double low = margins[i];
            double high = margins[i + 1];
            lines.add(oneClass(
                    String.format(Locale.ROOT, "scale error %.0f to %.0f %% of the limit", 100 * low, 100 * high),
                    study,
                    o -> o.scaleShareOfLimit() >= low && o.scaleShareOfLimit() < high));
        }
        return lines;
    }

    private static String oneClass(String name, CurveStudy study, Predicate<Outcome> among) {
        List<Outcome> own = study.outcomes.stream().filter(among).toList();
        double held = (double) own.stream().filter(Outcome::covered).count() / own.size();
        double[] widths = own.stream().mapToDouble(Outcome::width).sorted().toArray();
        if (own.size() >= LEAST_CLASS) {
            assertThat(held).as(name).isGreaterThanOrEqualTo(0.90);
        }
        return String.format(
                Locale.ROOT, "| %s | %d | %.3f | %.3f |", name, own.size(), held, widths[widths.length / 2]);
    }

    private static List<String> short4(CurveStudy study) {
        List<String> lines = new ArrayList<>(head());
        demand(lines, "band holds the truth at tested speeds", study.bandCoverage(), "");
        demand(lines, "interval of the floor holds the truth", study.share(Outcome::covered), "at least 0.92");
        demand(lines, "width of the interval over the floor, median", study.quantile(Outcome::width, 0.5), "");
        demand(lines, "bias of the estimated floor, mean", study.meanBias(), "");
        demand(lines, "proven floor is not below the truth", study.share(Outcome::promiseKept), "");
        return lines;
    }

    private static String statuses(String truth, CurveStudy study) {
        return String.format(
                Locale.ROOT,
                "| %s | %.3f | %.3f | %.3f | %.3f | %.3f | %.3f |",
                truth,
                study.statusShare(Status.FOUND),
                study.statusShare(Status.BRACKET),
                study.statusShare(Status.HOLDS_THROUGHOUT),
                study.statusShare(Status.HOLDS_IN_A_BAND),
                study.statusShare(Status.DOES_NOT_HOLD),
                study.statusShare(Status.UNDECIDED));
    }

    private static String wrong(String what, CurveStudy study) {
        return String.format(
                Locale.ROOT,
                "| %s | %.3f | %.3f | %.3f | %.3f | %.3f | %.3f |",
                what,
                study.bandCoverage(),
                study.share(Outcome::covered),
                study.share(Outcome::promiseKept),
                study.quantile(Outcome::width, 0.5),
                study.share(Outcome::widened),
                1 - study.share(Outcome::hasCurve));
    }

    private static List<String> head() {
        return List.of("| figure | found | demanded |", "|---|---|---|");
    }

    private static void demand(List<String> lines, String what, double found, String demanded) {
        lines.add(String.format(Locale.ROOT, "| %s | %.4f | %s |", what, found, demanded));
    }

    /** Two standard deviations of a share near p over the trials. */
    private static double allowance(double p) {
        return 2 * Math.sqrt(p * (1 - p) / TRIALS);
    }

    private static void write(String block, List<String> lines) {
        if (TRIALS >= USUAL) {
            StudiesPage.write(block, lines);
        }
    }
}
