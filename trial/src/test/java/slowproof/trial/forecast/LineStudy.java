package slowproof.trial.forecast;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Predicate;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;
import slowproof.trial.Limit;
import slowproof.trial.Trial;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.forecast.Forecast.Figures;
import slowproof.trial.line.Line;
import slowproof.trial.line.PieceSpec;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.Drive;
import slowproof.trial.simulator.LineCycle;
import slowproof.trial.simulator.LineStep;
import slowproof.trial.simulator.LineTruth;
import slowproof.trial.simulator.Population;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.SeriesPlan;
import slowproof.trial.simulator.SimReference;
import slowproof.trial.simulator.SimSensor;
import slowproof.trial.simulator.SimulatedTrial;
import slowproof.trial.simulator.TrueMaterial;

/**
 * Random benches and random lines: the bench is simulated and evaluated, its forecast compared with the true error of the
 * line, which the simulator integrates in time on the true curve. Two strokes, so that start and travel are told apart.
 * Each bench forecasts two lines that differ in their creep only: at a speed that the bench ran, and at any.
 *
 * <p>What the forecast holds uncertain is drawn: the scale error of the reference by the simulated bench, and the fixed part
 * of its certificate here, as a length that every pass on the bench has and the line has not.
 */
final class LineStudy {
    private static final double READING_NOISE_MM = 0.002;
    private static final double START_LOSS_MM = 0.03;
    private static final double STEP_MM = 0.05;

    /**
     * One forecast.
     *
     * @param trueErrorMm true mean error of the pieces
     * @param truePpm true share outside, in ppm
     * @param figures the forecast
     */
    record Outcome(double trueErrorMm, double truePpm, Figures figures) {
        boolean meanCovered() {
            return figures.meanInterval().contains(trueErrorMm);
        }

        boolean ppmCovered() {
            Interval interval = Evidence.there(figures.outsideInterval());
            return 1e6 * interval.low() <= truePpm && truePpm <= 1e6 * interval.high();
        }

        /** Returns the error of the forecast in its own standard uncertainties. */
        double standardised() {
            return (trueErrorMm - figures.expectedErrorMm()) / figures.meanUncertaintyMm();
        }

        double uncertaintyMm(Contribution.Source source) {
            return figures.contributions().stream()
                    .filter(c -> c.source() == source)
                    .mapToDouble(Contribution::standardUncertaintyMm)
                    .sum();
        }
    }

    /** Lines that creep at a tested speed. */
    final List<Outcome> tested;

    /** Lines that creep at any speed. */
    final List<Outcome> between;

    private LineStudy(List<List<Outcome>> outcomes) {
        tested = outcomes.stream().map(o -> o.get(0)).toList();
        between = outcomes.stream().map(o -> o.get(1)).toList();
    }

    static LineStudy run(long seed, int trials) {
        return new LineStudy(IntStream.range(0, trials)
                .parallel()
                .mapToObj(k -> outcomes(seed, k))
                .toList());
    }

    static double share(List<Outcome> outcomes, Predicate<Outcome> what) {
        return (double) outcomes.stream().filter(what).count() / outcomes.size();
    }

    private static List<Outcome> outcomes(long seed, int k) {
        RandomStreams streams = RandomStreams.of(seed).trial(k);
        SplittableRandom random = new SplittableRandom(seed * 1_000_003 + k);
        Population.Sample sample = Population.draw(streams);
        double startLoss = START_LOSS_MM * random.nextDouble(-1, 1);
        double fixedMm = READING_NOISE_MM * random.nextGaussian();
        TrueMaterial surface =
                sample.material().withStart(startLoss, sample.material().startScatterMm());
        TrueMaterial asMeasured = surface.withStart(startLoss + fixedMm, surface.startScatterMm());
        BenchPlan plan = plan(asMeasured, sample.strokeMm(), sample.accelerationMmPerS2());
        Trial trial = SimulatedTrial.of("", plan, Bench.read(plan, streams), Limit.of(sample.limitRatio(), 0));
        LineEvidence evidence = LineEvidence.of(Evaluation.of(trial, seed + k), Population.MATERIAL, seed + k);
        double acceleration = sample.accelerationMmPerS2() * random.nextDouble(1, 1.9);
        double fast = random.nextDouble(200, 400);
        double creep = random.nextDouble(10, 80);
        double creepMm = random.nextDouble(20, 200);
        double length = random.nextDouble(1000, 4000);
        int stops = random.nextInt(3);
        double room = random.nextDouble(0.5, 4);
        double near = ladder().stream()
                .min(Comparator.comparingDouble(v -> Math.abs(Math.log(v / creep))))
                .orElseThrow();
        return DoubleStream.of(near, creep)
                .mapToObj(v -> {
                    List<LineStep> cycle = cycle(acceleration, fast, stops, v, creepMm);
                    LineTruth truth = new LineCycle(length, cycle).lineTruth(surface);
                    return outcome(evidence, truth, described(cycle), room, seed + k);
                })
                .toList();
    }

    private static Outcome outcome(
            LineEvidence evidence,
            LineTruth truth,
            List<slowproof.trial.line.LineStep> described,
            double room,
            long seed) {
        double length = truth.pieceMm();
        // two readings of a step are part of a measured piece
        double spread = Math.sqrt(truth.spreadMm() * truth.spreadMm() + STEP_MM * STEP_MM / 6);
        double deviation = -truth.expectedErrorMm() / (1 + truth.expectedErrorMm() / length);
        double tolerance = Math.abs(deviation) + spread * room;
        double ppm = 1e6
                * (Distributions.normalCdf(-(tolerance - deviation) / spread)
                        + Distributions.normalCdf(-(tolerance + deviation) / spread));
        Forecast forecast = Forecasting.of(
                evidence, Line.of("", PieceSpec.of(length, tolerance), described), new Settings(seed, 2, false, 1));
        return new Outcome(truth.expectedErrorMm(), ppm, Evidence.there(forecast.figures()));
    }

    private static List<LineStep> cycle(double acceleration, double fast, int stops, double creep, double creepMm) {
        List<LineStep> steps = new ArrayList<>();
        for (int i = 0; i < stops; i++) {
            steps.add(new LineStep.RampTo(fast / 2, acceleration));
            steps.add(new LineStep.RampTo(0, acceleration));
        }
        steps.add(new LineStep.RampTo(fast, acceleration));
        steps.add(new LineStep.HoldRest());
        steps.add(new LineStep.RampTo(creep, acceleration));
        steps.add(new LineStep.HoldMm(creepMm));
        steps.add(new LineStep.RampTo(0, acceleration));
        return steps;
    }

    /** The same steps as a line file describes them. */
    private static List<slowproof.trial.line.LineStep> described(List<LineStep> cycle) {
        List<slowproof.trial.line.LineStep> steps = new ArrayList<>();
        for (LineStep step : cycle) {
            if (step instanceof LineStep.RampTo ramp) {
                steps.add(slowproof.trial.line.LineStep.RampTo.of(ramp.speedMmPerS(), ramp.accelerationMmPerS2()));
            } else if (step instanceof LineStep.HoldMm hold) {
                steps.add(new slowproof.trial.line.LineStep.HoldMm(hold.distanceMm()));
            } else {
                steps.add(new slowproof.trial.line.LineStep.HoldRest());
            }
        }
        return steps;
    }

    private static List<Double> ladder() {
        return BenchPlan.ladder(Population.FASTEST_MM_PER_S, Population.SLOWEST_MM_PER_S, 1.35);
    }

    private static BenchPlan plan(TrueMaterial surface, double strokeMm, double acceleration) {
        List<SeriesPlan> series = new ArrayList<>();
        List<Double> ladder = ladder();
        for (double speed : ladder) {
            series.add(SeriesPlan.alternating(
                    "long-" + series.size(), surface, strokeMm, Drive.of(speed, acceleration), 5));
        }
        for (double speed : new double[] {ladder.get(2), ladder.get(4), ladder.get(5), ladder.get(7)}) {
            series.add(
                    SeriesPlan.alternating("short-" + series.size(), surface, 250, Drive.of(speed, acceleration), 5));
        }
        return BenchPlan.of(series, SimSensor.of(STEP_MM), new SimReference(READING_NOISE_MM, 2.5e-6, 0.0001));
    }
}
