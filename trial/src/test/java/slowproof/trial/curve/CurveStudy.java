package slowproof.trial.curve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import slowproof.trial.scatter.PassError;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.CurveShape;
import slowproof.trial.simulator.Population;
import slowproof.trial.simulator.RandomStreams;

/**
 * Many simulated trials with known truth, and how often the curve and the floor hold it. Trials run in parallel; each
 * has streams of its own, so the figures do not depend on the number of threads.
 */
final class CurveStudy {
    /** One trial: what was true and what was found. */
    record Outcome(
            CurveShape shape,
            double widthShare,
            double scaleShareOfLimit,
            double trueFloor,
            FloorEstimate floor,
            List<Boolean> inBand,
            boolean inSimultaneousBand,
            boolean widened,
            boolean hasCurve) {
        boolean covered() {
            double low = floor.low() == null ? 0 : floor.low();
            double high = floor.high() == null ? Double.POSITIVE_INFINITY : floor.high();
            return trueFloor >= low && trueFloor <= high;
        }

        /** Width of the interval relative to the true floor; infinite when an end is open. */
        double width() {
            return floor.low() == null || floor.high() == null
                    ? Double.POSITIVE_INFINITY
                    : (floor.high() - floor.low()) / trueFloor;
        }

        double bias() {
            return floor.estimate() == null ? Double.NaN : floor.estimate() / trueFloor - 1;
        }

        boolean promiseKept() {
            return floor.proven() == null || floor.proven() >= trueFloor;
        }
    }

    final List<Outcome> outcomes;

    private CurveStudy(List<Outcome> outcomes) {
        this.outcomes = outcomes;
    }

    static CurveStudy run(long seed, int trials, double ladderRatio, int cycles, int draws) {
        return run(seed, trials, ladderRatio, cycles, draws, Population::draw);
    }

    static CurveStudy run(
            long seed,
            int trials,
            double ladderRatio,
            int cycles,
            int draws,
            Function<RandomStreams, Population.Sample> population) {
        List<Double> ladder = BenchPlan.ladder(Population.FASTEST_MM_PER_S, Population.SLOWEST_MM_PER_S, ladderRatio);
        return new CurveStudy(IntStream.range(0, trials)
                .parallel()
                .mapToObj(k ->
                        outcome(population.apply(RandomStreams.of(seed).trial(k)), ladder, cycles, seed + k, draws))
                .toList());
    }

    static Outcome outcome(Population.Sample sample, List<Double> ladder, int cycles, long seed, int draws) {
        List<PassError> passes = SimulatedPasses.of(sample.plan(ladder, cycles), sample.streams());
        CurveSettings settings = new CurveSettings("surface", 0.05, 0, 2.5e-6, seed, draws);
        CurveResult result = CurveFit.of(passes, settings);
        List<Boolean> inBand = new ArrayList<>();
        boolean simultaneous = true;
        ErrorCurve curve = result.curve();
        if (curve != null) {
            List<CurvePoint> points = curve.tested();
            for (int j = 0; j < points.size(); j++) {
                double truth = sample.curve().at(points.get(j).speedMmPerS());
                inBand.add(
                        truth >= points.get(j).low() && truth <= points.get(j).high());
                simultaneous &= Math.abs(truth - points.get(j).error())
                        <= curve.simultaneousFactor() * points.get(j).standardUncertainty();
            }
        }
        return new Outcome(
                sample.curve().shape(),
                sample.curve().kneeWidthShare(),
                Math.abs(sample.curve().scaleErrorRatio()) / sample.limitRatio(),
                sample.curve().floorMmPerS(sample.limitRatio(), ladder.get(0), ladder.get(ladder.size() - 1)),
                result.floor(sample.limitRatio()),
                inBand,
                simultaneous,
                curve != null && curve.lackOfFit().widening() > 1,
                curve != null);
    }

    double share(Predicate<Outcome> what) {
        return (double) outcomes.stream().filter(what).count() / outcomes.size();
    }

    double shareAmong(Predicate<Outcome> among, Predicate<Outcome> what) {
        long all = outcomes.stream().filter(among).count();
        return (double) outcomes.stream().filter(among.and(what)).count() / all;
    }

    double quantile(ToDoubleFunction<Outcome> what, double p) {
        double[] values = outcomes.stream().mapToDouble(what).sorted().toArray();
        return values[(int) Math.min(values.length - 1, Math.floor(p * values.length))];
    }

    double meanBias() {
        return outcomes.stream()
                .mapToDouble(Outcome::bias)
                .filter(Double::isFinite)
                .average()
                .orElseThrow();
    }

    /** Share of tested speeds at which the truth lies in the band. */
    double bandCoverage() {
        return outcomes.stream()
                .filter(Outcome::hasCurve)
                .flatMapToInt(o -> o.inBand().stream().mapToInt(in -> in ? 1 : 0))
                .average()
                .orElseThrow();
    }

    /** The same for each place of the ladder, slowest first. */
    double[] bandCoverageByPlace() {
        List<Outcome> curves = outcomes.stream().filter(Outcome::hasCurve).toList();
        int places = curves.get(0).inBand().size();
        double[] out = new double[places];
        for (Outcome outcome : curves) {
            for (int j = 0; j < places; j++) {
                out[j] += outcome.inBand().get(j) ? 1.0 / curves.size() : 0;
            }
        }
        return out;
    }

    double statusShare(FloorEstimate.Status status) {
        return share(o -> o.floor().status() == status);
    }

    String figures() {
        return String.format(
                Locale.ROOT,
                "trials %d: curve %.3f, band %.3f (least place %.3f), simultaneous %.3f, floor covered %.3f, width median %.3f q90 %.3f, "
                        + "bias mean %.4f, promise kept %.3f, found %.3f, undecided %.3f, widened %.3f",
                outcomes.size(),
                share(Outcome::hasCurve),
                bandCoverage(),
                Arrays.stream(bandCoverageByPlace()).min().orElseThrow(),
                share(Outcome::inSimultaneousBand),
                share(Outcome::covered),
                quantile(Outcome::width, 0.5),
                quantile(Outcome::width, 0.9),
                meanBias(),
                share(Outcome::promiseKept),
                share(o -> o.floor().status() == FloorEstimate.Status.FOUND),
                share(o -> o.floor().status() == FloorEstimate.Status.UNDECIDED),
                share(Outcome::widened));
    }
}
