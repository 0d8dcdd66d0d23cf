package slowproof.trial.forecast;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Predicate;
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

/**
 * Random benches and random lines: the bench is simulated and evaluated, its forecast compared with the true error of the
 * line, which the simulator integrates in time on the true curve. Two strokes, so that start and travel are told apart.
 */
final class LineStudy {
    record Outcome(double trueErrorMm, double truePpm, Figures figures) {
        boolean meanCovered() {
            return figures.meanInterval().contains(trueErrorMm);
        }

        boolean ppmCovered() {
            Interval interval = Evidence.there(figures.outsideInterval());
            return 1e6 * interval.low() <= truePpm && truePpm <= 1e6 * interval.high();
        }
    }

    final List<Outcome> outcomes;

    private LineStudy(List<Outcome> outcomes) {
        this.outcomes = outcomes;
    }

    static LineStudy run(long seed, int trials) {
        return new LineStudy(IntStream.range(0, trials)
                .parallel()
                .mapToObj(k -> outcome(seed, k))
                .toList());
    }

    double share(Predicate<Outcome> what) {
        return (double) outcomes.stream().filter(what).count() / outcomes.size();
    }

    private static Outcome outcome(long seed, int k) {
        RandomStreams streams = RandomStreams.of(seed).trial(k);
        SplittableRandom random = new SplittableRandom(seed * 1_000_003 + k);
        Population.Sample sample = Population.draw(streams);
        Trial trial = SimulatedTrial.of(
                "", plan(sample), Bench.read(plan(sample), streams), Limit.of(sample.limitRatio(), 0));
        double acceleration = sample.accelerationMmPerS2() * random.nextDouble(1, 1.9);
        double fast = random.nextDouble(200, 400);
        double creep = random.nextDouble(10, 80);
        double creepMm = random.nextDouble(20, 200);
        double length = random.nextDouble(1000, 4000);
        int stops = random.nextInt(3);
        List<LineStep> steps = new ArrayList<>();
        List<slowproof.trial.line.LineStep> described = new ArrayList<>();
        for (int i = 0; i < stops; i++) {
            steps.add(new LineStep.RampTo(fast / 2, acceleration));
            steps.add(new LineStep.RampTo(0, acceleration));
            described.add(slowproof.trial.line.LineStep.RampTo.of(fast / 2, acceleration));
            described.add(slowproof.trial.line.LineStep.RampTo.of(0, acceleration));
        }
        steps.add(new LineStep.RampTo(fast, acceleration));
        steps.add(new LineStep.HoldRest());
        steps.add(new LineStep.RampTo(creep, acceleration));
        steps.add(new LineStep.HoldMm(creepMm));
        steps.add(new LineStep.RampTo(0, acceleration));
        described.add(slowproof.trial.line.LineStep.RampTo.of(fast, acceleration));
        described.add(new slowproof.trial.line.LineStep.HoldRest());
        described.add(slowproof.trial.line.LineStep.RampTo.of(creep, acceleration));
        described.add(new slowproof.trial.line.LineStep.HoldMm(creepMm));
        described.add(slowproof.trial.line.LineStep.RampTo.of(0, acceleration));
        LineTruth truth = new LineCycle(length, steps).lineTruth(sample.material());
        // two readings of 0.05 mm steps are part of a measured piece
        double spread = Math.sqrt(truth.spreadMm() * truth.spreadMm() + 0.05 * 0.05 / 6);
        double deviation = -truth.expectedErrorMm() / (1 + truth.expectedErrorMm() / length);
        double tolerance = Math.abs(deviation) + spread * random.nextDouble(0.5, 4);
        double ppm = 1e6
                * (Distributions.normalCdf(-(tolerance - deviation) / spread)
                        + Distributions.normalCdf(-(tolerance + deviation) / spread));
        LineEvidence evidence = LineEvidence.of(Evaluation.of(trial, seed + k), Population.MATERIAL, seed + k);
        Forecast forecast = Forecasting.of(
                evidence, Line.of("", PieceSpec.of(length, tolerance), described), new Settings(seed + k, 1, false, 1));
        return new Outcome(truth.expectedErrorMm(), ppm, Evidence.there(forecast.figures()));
    }

    private static BenchPlan plan(Population.Sample sample) {
        List<SeriesPlan> series = new ArrayList<>();
        List<Double> ladder = BenchPlan.ladder(Population.FASTEST_MM_PER_S, Population.SLOWEST_MM_PER_S, 1.35);
        double a = sample.accelerationMmPerS2();
        for (double speed : ladder) {
            series.add(SeriesPlan.alternating(
                    "long-" + series.size(), sample.material(), sample.strokeMm(), Drive.of(speed, a), 5));
        }
        for (double speed : new double[] {ladder.get(2), ladder.get(4), ladder.get(5), ladder.get(7)}) {
            series.add(SeriesPlan.alternating("short-" + series.size(), sample.material(), 250, Drive.of(speed, a), 5));
        }
        return BenchPlan.of(series, SimSensor.of(0.05), new SimReference(0.002, 2.5e-6, 0.0001));
    }
}
