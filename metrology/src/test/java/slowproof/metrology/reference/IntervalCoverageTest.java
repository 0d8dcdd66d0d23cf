package slowproof.metrology.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static slowproof.metrology.reference.CoverageSituation.about;
import static slowproof.metrology.reference.CoverageSituation.atLeast;
import static slowproof.metrology.reference.CoverageSituation.exact;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;
import slowproof.metrology.reference.CoverageSituation.Draws;
import slowproof.metrology.regression.CurveModel;
import slowproof.metrology.regression.HingeFit;
import slowproof.metrology.regression.IsotonicBand;
import slowproof.metrology.regression.LeastSquares;
import slowproof.metrology.regression.LinearFit;
import slowproof.metrology.regression.Logistic;
import slowproof.metrology.regression.LogisticFit;
import slowproof.metrology.regression.NonlinearLeastSquares;
import slowproof.metrology.regression.PenalisedFit;
import slowproof.metrology.regression.PenalisedLeastSquares;
import slowproof.metrology.regression.Shape;
import slowproof.metrology.regression.ShapedSpline;
import slowproof.metrology.regression.SmoothingChoice;
import slowproof.metrology.regression.SplineBasis;
import slowproof.metrology.regression.StraightLine;
import slowproof.metrology.regression.YorkFit;
import slowproof.metrology.sampling.BlockStreams;
import slowproof.metrology.statistics.DistributionFree;
import slowproof.metrology.statistics.PooledDeviation;
import slowproof.metrology.statistics.Proportion;
import slowproof.metrology.statistics.Statistics;
import slowproof.metrology.statistics.ToleranceFactor;

/** How often the 95 % intervals of statistics and regression hold a known truth. */
class IntervalCoverageTest {
    private static final double LEVEL = 0.95;
    private static final SplineBasis BASIS = SplineBasis.evenly(3, 0, 1, 10);

    private static final List<CoverageSituation> SITUATIONS = situations();

    private static List<CoverageSituation> situations() {
        List<CoverageSituation> all = new ArrayList<>();
        for (int n : new int[] {2, 3, 10}) {
            all.add(exact(
                    "mean, Student's t",
                    n + " readings",
                    d -> Statistics.meanInterval(d.normals(n, 7, 2), LEVEL).contains(7)));
        }
        all.add(exact(
                "standard deviation, chi-squared",
                "3 groups of 2",
                d -> PooledDeviation.of(List.of(d.normals(2, 0, 2), d.normals(2, 5, 2), d.normals(2, 9, 2)))
                        .interval(LEVEL)
                        .contains(2)));
        all.add(exact(
                "standard deviation, chi-squared",
                "one group of 10",
                d -> PooledDeviation.of(List.of(d.normals(10, 0, 2)))
                        .interval(LEVEL)
                        .contains(2)));
        tolerance(all);
        shares(all);
        lines(all);
        curves(all);
        return List.copyOf(all);
    }

    private static void tolerance(List<CoverageSituation> all) {
        for (int n : new int[] {3, 10, 30}) {
            double k = ToleranceFactor.twoSided(0.9, LEVEL, n);
            all.add(exact(
                    "tolerance, two-sided exact", "90 % content, " + n + " readings", d -> content(d, n, k) >= 0.9));
        }
        for (int n : new int[] {3, 10, 30}) {
            double howe = ToleranceFactor.howe(0.9, LEVEL, n);
            all.add(about(
                    "tolerance, two-sided Howe",
                    "90 % content, " + n + " readings",
                    1,
                    d -> content(d, n, howe) >= 0.9));
        }
        for (int n : new int[] {3, 10}) {
            double k = ToleranceFactor.oneSided(0.99, LEVEL, n);
            all.add(exact(
                    "tolerance, one-sided exact", "99 % content, " + n + " readings", d -> below(d, n, k) >= 0.99));
        }
        double approximate = ToleranceFactor.oneSidedApproximate(0.99, LEVEL, 10);
        all.add(about(
                "tolerance, one-sided closed form",
                "99 % content, 10 readings",
                1,
                d -> below(d, 10, approximate) >= 0.99));
        all.add(atLeast("tolerance, distribution-free", "90 % content, 60 uniform readings", d -> {
            double[] values = new double[60];
            for (int i = 0; i < 60; i++) {
                values[i] = d.uniform();
            }
            return DistributionFree.interval(values, 0.9, LEVEL).orElseThrow().width() >= 0.9;
        }));
    }

    private static double content(Draws d, int n, double k) {
        double[] values = d.normals(n, 0, 1);
        double mean = Statistics.mean(values);
        double half = k * Statistics.standardDeviation(values);
        return Distributions.normalCdf(mean + half) - Distributions.normalCdf(mean - half);
    }

    private static double below(Draws d, int n, double k) {
        double[] values = d.normals(n, 0, 1);
        return Distributions.normalCdf(Statistics.mean(values) + k * Statistics.standardDeviation(values));
    }

    private static void shares(List<CoverageSituation> all) {
        for (double share : new double[] {0.01, 0.1, 0.5}) {
            for (int n : new int[] {10, 50}) {
                String situation = String.format(Locale.ROOT, "share %.2f, %d trials", share, n);
                all.add(atLeast(
                        "share, Clopper-Pearson",
                        situation,
                        d -> Proportion.clopperPearson(d.successes(n, share), n, LEVEL)
                                .contains(share)));
                all.add(about(
                        "share, Wilson",
                        situation,
                        1,
                        d -> Proportion.wilson(d.successes(n, share), n, LEVEL).contains(share)));
            }
        }
    }

    private static void lines(List<CoverageSituation> all) {
        for (int n : new int[] {4, 12}) {
            all.add(exact(
                    "slope, least squares",
                    n + " points, scatter estimated",
                    d -> line(d, n).interval(1, LEVEL).contains(2)));
        }
        all.add(exact("slope, least squares", "5 points, scatters known", d -> {
            double[][] rows = new double[5][];
            double[] y = new double[5];
            double[] u = {1, 0.5, 2, 0.5, 1};
            for (int i = 0; i < 5; i++) {
                rows[i] = new double[] {1, i};
                y[i] = 1 + 2 * i + u[i] * d.normal();
            }
            return LeastSquares.known(rows, y, u).interval(1, LEVEL).contains(2);
        }));
        all.add(exact("slope, generalised least squares", "6 points of a random walk", d -> {
            double[][] rows = new double[6][];
            double[][] covariance = new double[6][6];
            double[] y = new double[6];
            double walk = 0;
            for (int i = 0; i < 6; i++) {
                rows[i] = new double[] {1, i};
                walk += d.normal();
                y[i] = 1 + 2 * i + walk;
                for (int j = 0; j < 6; j++) {
                    covariance[i][j] = 1 + Math.min(i, j);
                }
            }
            return LeastSquares.generalised(rows, y, covariance)
                    .interval(1, LEVEL)
                    .contains(2);
        }));
        all.add(exact(
                "value of the line, least squares",
                "8 points, at the end",
                d -> line(d, 8).predictionInterval(LEVEL, 1, 7).contains(15)));
        all.add(exact("inverse reading, Fieller", "10 points, reading with their scatter", d -> {
            StraightLine line = StraightLine.of(line(d, 10));
            // the reading's own scatter is taken from the line's: one estimate of sigma, n - 2 degrees of freedom
            double s = Math.sqrt(line.chiSquare() / line.degreesOfFreedom());
            return line.inverseInterval(1 + 2 * 3.3 + d.normal(), s, LEVEL)
                    .orElse(new Interval(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY))
                    .contains(3.3);
        }));
        all.add(about("slope, York", "6 points, errors in both axes known", 1, d -> {
            double[] x = new double[6];
            double[] y = new double[6];
            double[] ux = {0.1, 0.3, 0.1, 0.2, 0.1, 0.3};
            double[] uy = {0.3, 0.1, 0.5, 0.2, 0.3, 0.1};
            for (int i = 0; i < 6; i++) {
                x[i] = i + ux[i] * d.normal();
                y[i] = 1 + 2 * i + uy[i] * d.normal();
            }
            StraightLine line = YorkFit.fit(x, y, ux, uy);
            return Math.abs(line.slope() - 2) <= Distributions.normalQuantile(0.975) * Math.sqrt(line.slopeVariance());
        }));
        all.add(about("slope, Deming", "10 points, ratio of errors known", 1, d -> {
            double[] x = new double[10];
            double[] y = new double[10];
            for (int i = 0; i < 10; i++) {
                x[i] = i + 0.3 * d.normal();
                y[i] = 1 + 2 * i + 0.6 * d.normal();
            }
            StraightLine line = YorkFit.deming(x, y, 4);
            return Math.abs(line.slope() - 2)
                    <= Distributions.studentQuantile(0.975, 8) * Math.sqrt(line.slopeVariance());
        }));
    }

    private static LinearFit line(Draws d, int n) {
        double[][] rows = new double[n][];
        double[] y = new double[n];
        for (int i = 0; i < n; i++) {
            rows[i] = new double[] {1, i};
            y[i] = 1 + 2 * i + d.normal();
        }
        return LeastSquares.ordinary(rows, y);
    }

    private static void curves(List<CoverageSituation> all) {
        all.add(about(
                "rate, nonlinear least squares", "12 points of a saturating curve", 1, IntervalCoverageTest::rate));
        all.add(about("meeting point, hinge profile", "25 points, change of slope 2", 10, IntervalCoverageTest::hinge));
        all.add(about("probability, logistic", "40 outcomes", 1, d -> logistic(d, 40, false)));
        all.add(about("probability, logistic bias-reduced", "40 outcomes", 1, d -> logistic(d, 40, true)));
        all.add(about(
                "predictor at 90 %, logistic bias-reduced",
                "80 outcomes", 1, d -> {
                    LogisticFit fit = Logistic.firth(predictors(80), outcomes(d, 80));
                    return fit.crossingInterval(0.9, LEVEL)
                            .orElse(new Interval(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY))
                            .contains(Math.log(9) / 2);
                }));
        all.add(about(
                "monotone fit, bootstrap by series",
                "12 series of 8, at the middle",
                10,
                IntervalCoverageTest::isotonic));
        for (SmoothingChoice choice : SmoothingChoice.values()) {
            String name = choice == SmoothingChoice.REML ? "restricted likelihood" : "cross-validation";
            all.add(about("penalised spline, " + name, "50 points, anywhere", 4, d -> spline(d, choice, d.uniform())));
        }
        all.add(about(
                "penalised spline, restricted likelihood",
                "50 points, at the edge",
                4,
                d -> spline(d, SmoothingChoice.REML, 0)));
        all.add(about("decreasing convex spline", "50 points, anywhere", 20, IntervalCoverageTest::shaped));
    }

    private static boolean rate(Draws d) {
        CurveModel model =
                (b, x) -> b[0].multiply(b[1].multiply(-x[0]).exp().negate().add(1));
        double[][] x = new double[12][];
        double[] y = new double[12];
        for (int i = 0; i < 12; i++) {
            x[i] = new double[] {i + 1.0};
            y[i] = 10 * (1 - Math.exp(-0.3 * (i + 1))) + 0.5 * d.normal();
        }
        return NonlinearLeastSquares.fit(model, x, y, List.of(new double[] {10, 0.3}))
                .interval(1, LEVEL)
                .contains(0.3);
    }

    private static boolean hinge(Draws d) {
        double[] x = new double[25];
        double[] y = new double[25];
        for (int i = 0; i < 25; i++) {
            x[i] = i;
            y[i] = 1 + 2 * Math.max(0, i - 11.4) + 2 * d.normal();
        }
        return HingeFit.fit(x, y).meetingPointInterval(LEVEL).contains(11.4);
    }

    private static double[][] predictors(int n) {
        double[][] rows = new double[n][];
        for (int i = 0; i < n; i++) {
            rows[i] = new double[] {1, 4.0 * i / (n - 1) - 2};
        }
        return rows;
    }

    private static boolean[] outcomes(Draws d, int n) {
        boolean[] yes = new boolean[n];
        double[][] rows = predictors(n);
        for (int i = 0; i < n; i++) {
            yes[i] = d.uniform() < 1 / (1 + Math.exp(-2 * rows[i][1]));
        }
        return yes;
    }

    // where the classes separate, only the bias-reduced fit exists
    private static boolean logistic(Draws d, int n, boolean reduced) {
        boolean[] yes = outcomes(d, n);
        double[][] rows = predictors(n);
        LogisticFit fit = reduced || Logistic.separated(rows, yes)
                ? Logistic.firth(rows, yes)
                : Logistic.maximumLikelihood(rows, yes);
        return fit.probabilityInterval(LEVEL, 1, 0.8).contains(1 / (1 + Math.exp(-1.6)));
    }

    private static boolean isotonic(Draws d) {
        double[] x = new double[96];
        double[] y = new double[96];
        int[] series = new int[96];
        for (int s = 0; s < 12; s++) {
            double own = 0.5 * d.normal();
            for (int k = 0; k < 8; k++) {
                int i = 8 * s + k;
                x[i] = k;
                y[i] = 0.6 * k + own + 0.5 * d.normal();
                series[i] = s;
            }
        }
        return IsotonicBand.increasing(x, y, series, new double[] {4}, LEVEL, 400, d.seed())
                .get(0)
                .contains(2.4);
    }

    private static double truth(double x) {
        return 3 * Math.exp(-5 * x);
    }

    private static boolean spline(Draws d, SmoothingChoice choice, double at) {
        double[] x = new double[50];
        double[] y = new double[50];
        for (int i = 0; i < 50; i++) {
            x[i] = i / 49.0;
            y[i] = truth(x[i]) + 0.2 * d.normal();
        }
        PenalisedFit fit = PenalisedLeastSquares.fit(BASIS.rows(x), y, BASIS.roughness(), choice);
        return fit.predictionInterval(LEVEL, BASIS.row(at)).contains(truth(at));
    }

    private static boolean shaped(Draws d) {
        double[] x = new double[50];
        double[] y = new double[50];
        for (int i = 0; i < 50; i++) {
            x[i] = i / 49.0;
            y[i] = truth(x[i]) + 0.2 * d.normal();
        }
        double at = d.uniform();
        return ShapedSpline.fit(
                        BASIS, Set.of(Shape.DECREASING, Shape.CONVEX), x, y, SmoothingChoice.REML, 200, d.seed())
                .band(LEVEL, at)
                .contains(truth(at));
    }

    @Test
    void everyIntervalKeepsItsPromiseInASmallStudy() {
        long seed = Long.getLong("slowproof.seed", 2027L);
        BlockStreams streams = BlockStreams.of(seed);
        for (CoverageSituation situation : SITUATIONS) {
            int trials = Math.max(20, 400 / situation.cost());
            double coverage = situation.coverage(trials, streams.next());
            assertThat(situation.kind().keeps(coverage, trials))
                    .as("seed %s: %s, %s: %s", seed, situation.interval(), situation.situation(), coverage)
                    .isTrue();
        }
    }

    @Test
    @Tag("long")
    void coverageIsThatOfTheValidationPage() {
        long seed = Long.getLong("slowproof.seed", 2027L);
        int trials = Integer.getInteger("slowproof.trials", 20_000);
        BlockStreams streams = BlockStreams.of(seed);
        List<String> rows = new ArrayList<>();
        rows.add("| interval at 95 % | situation | promise | coverage in % |");
        rows.add("|---|---|---|---|");
        // each situation has its own stream: the figures do not depend on how many threads there are
        List<UniformRandomProvider> sources =
                SITUATIONS.stream().map(situation -> streams.next()).toList();
        double[] coverages = IntStream.range(0, SITUATIONS.size())
                .parallel()
                .mapToDouble(i -> SITUATIONS.get(i).coverage(trials, sources.get(i)))
                .toArray();
        for (int i = 0; i < coverages.length; i++) {
            CoverageSituation situation = SITUATIONS.get(i);
            rows.add(String.format(
                    Locale.ROOT,
                    "| %s | %s | %s | %.1f |",
                    situation.interval(),
                    situation.situation(),
                    situation.kind().text(),
                    100 * coverages[i]));
            assertThat(situation.kind().keeps(coverages[i], trials))
                    .as("seed %s: %s, %s: %s", seed, situation.interval(), situation.situation(), coverages[i])
                    .isTrue();
        }
        ValidationPage.compareOrWrite("coverage of the intervals", rows, 1);
    }
}
