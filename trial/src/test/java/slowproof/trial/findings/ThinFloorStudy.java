package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Limit;
import slowproof.trial.Reference;
import slowproof.trial.Series;
import slowproof.trial.Standstill;
import slowproof.trial.Trial;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.Population;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.SimReading;

/**
 * The floor that the findings of a thin trial state, against the true floor of random benches: two or three speeds, one
 * to three cycles each. The fastest speed is 1.05 to 4.7 times the true floor, at most 400 mm/s; the others go down from
 * it by a ratio of 1.5 to 2.5. The true floor is that of the error at one speed, without ramps.
 */
final class ThinFloorStudy {
    /**
     * One trial.
     *
     * @param status what was said
     * @param right whether it is true of the floor
     * @param held whether the speeds said to hold do hold
     */
    record Outcome(FloorSpeed.Status status, boolean right, boolean held) {}

    final List<Outcome> outcomes;

    private ThinFloorStudy(List<Outcome> outcomes) {
        this.outcomes = outcomes;
    }

    static ThinFloorStudy run(long seed, int trials) {
        return new ThinFloorStudy(IntStream.range(0, trials)
                .parallel()
                .mapToObj(k -> outcome(Population.draw(RandomStreams.of(seed).trial(k)), seed + 7919L * k))
                .toList());
    }

    private static Outcome outcome(Population.Sample sample, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        int count = 2 + random.nextInt(2);
        int cycles = 1 + random.nextInt(3);
        double ratio = 1.5 + random.nextDouble();
        double speed = Math.min(400, sample.floorMmPerS() * Math.exp(0.05 + 1.5 * random.nextDouble()));
        List<Double> speeds = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            speeds.add(0, speed);
            speed /= ratio;
        }
        double slowest = speeds.get(0);
        double fastest = speeds.get(count - 1);
        FloorSpeed floor = Evaluation.of(trial(sample.plan(speeds, cycles), sample))
                .materials()
                .get(0)
                .floor();
        double truth = sample.curve().floorMmPerS(sample.limitRatio(), slowest, fastest);
        boolean held = floor.status() == FloorSpeed.Status.HOLDS_THROUGHOUT
                ? truth <= slowest
                : floor.safe() == null || truth <= floor.safe();
        boolean nowhere = floor.status() == FloorSpeed.Status.DOES_NOT_HOLD
                || floor.status() == FloorSpeed.Status.HOLDS_IN_A_BAND;
        boolean fails = nowhere ? truth == Double.POSITIVE_INFINITY : atLeast(truth, floor.low());
        return new Outcome(floor.status(), held && fails, held);
    }

    private static boolean atLeast(double truth, @Nullable Double low) {
        return low == null || truth >= low;
    }

    private static Trial trial(BenchPlan plan, Population.Sample sample) {
        Map<String, List<SimReading>> bySeries = new LinkedHashMap<>();
        for (SimReading reading : Bench.read(plan, sample.streams()).readings()) {
            bySeries.computeIfAbsent(reading.series(), s -> new ArrayList<>()).add(reading);
        }
        List<Series> series = new ArrayList<>();
        bySeries.forEach((name, readings) -> series.add(new Series(
                name,
                "surface",
                "",
                readings.get(0).speedMmPerS(),
                sample.accelerationMmPerS2(),
                readings.stream().map(ThinFloorStudy::row).toList())));
        return RandomTrials.of(
                series,
                new Reference("", Reference.Kind.AXIS, 0.004, 5.0, 2, null, null),
                Limit.of(sample.limitRatio(), 0));
    }

    private static Standstill row(SimReading reading) {
        return new Standstill(
                Math.rint(reading.referenceMm() * 1e4) / 1e4,
                Math.rint(reading.readingMm() * 100) / 100.0,
                2,
                null,
                null,
                null,
                null,
                "",
                SourcePosition.ofFile("readings.csv"));
    }

    double shareOf(FloorSpeed.Status status) {
        return (double) outcomes.stream().filter(o -> o.status() == status).count() / outcomes.size();
    }

    double right(FloorSpeed.Status status) {
        return outcomes.stream()
                .filter(o -> o.status() == status)
                .mapToInt(o -> o.right() ? 1 : 0)
                .average()
                .orElse(Double.NaN);
    }

    double held() {
        return outcomes.stream().mapToInt(o -> o.held() ? 1 : 0).average().orElseThrow();
    }

    String figures() {
        StringBuilder text = new StringBuilder(String.format(Locale.ROOT, "held %.4f", held()));
        for (FloorSpeed.Status status : FloorSpeed.Status.values()) {
            text.append(String.format(Locale.ROOT, "; %s %.4f, right %.4f", status, shareOf(status), right(status)));
        }
        return text.toString();
    }
}
