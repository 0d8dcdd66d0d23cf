package slowproof.trial.curve;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import slowproof.trial.scatter.ComponentFit;
import slowproof.trial.scatter.Estimate;
import slowproof.trial.scatter.VarianceComponents;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.Drive;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.SeriesPlan;
import slowproof.trial.simulator.SimReference;
import slowproof.trial.simulator.SimSensor;
import slowproof.trial.simulator.TrueMaterial;

/**
 * Variance components of benches with known start and travel scatter, each at least a quarter of the variance of a pass
 * of one metre; six series of five cycles at each stroke.
 */
final class ComponentStudy {
    /** True and found components of one bench; the estimates are null where nothing was told apart. */
    record Outcome(double start, double travel, VarianceComponents found) {}

    final List<Outcome> outcomes;

    private ComponentStudy(List<Outcome> outcomes) {
        this.outcomes = outcomes;
    }

    static ComponentStudy run(long seed, int trials, double... strokesMm) {
        return new ComponentStudy(IntStream.range(0, trials)
                .parallel()
                .mapToObj(k -> outcome(seed, k, strokesMm))
                .toList());
    }

    private static Outcome outcome(long seed, int k, double[] strokesMm) {
        SplittableRandom random = new SplittableRandom(seed + 104_729L * k);
        double start = 0.02 * Math.pow(5, random.nextDouble());
        // ratio of the variances at one metre from 1/3 to 3
        double travel = start * Math.pow(3, random.nextDouble() - 0.5);
        TrueMaterial material =
                TrueMaterial.of("surface", v -> 0.0005).withStart(0, start).withTravelScatter(travel);
        List<SeriesPlan> series = new ArrayList<>();
        for (double stroke : strokesMm) {
            for (int s = 0; s < 6; s++) {
                series.add(SeriesPlan.alternating("s" + series.size(), material, stroke, Drive.of(150, 500), 5));
            }
        }
        BenchPlan plan = BenchPlan.of(series, SimSensor.of(0.05), new SimReference(0.002, 2.5e-6, 0.0001));
        return new Outcome(
                start,
                travel,
                ComponentFit.of(
                        SimulatedPasses.of(plan, RandomStreams.of(seed).trial(k)), 0.05 * 0.05 / 12 + 0.002 * 0.002));
    }

    /** Share of the benches whose start scatter is found within a factor. */
    double startWithin(double factor) {
        return share(o -> within(o.found().startScatterMm(), o.start(), factor));
    }

    /** Share of the benches whose travel scatter is found within a factor. */
    double travelWithin(double factor) {
        return share(o -> within(o.found().travelScatterMmPerSqrtM(), o.travel(), factor));
    }

    /** Share of the benches whose start scatter lies in its interval. */
    double startCovered() {
        return share(o -> covers(o.found().startScatterMm(), o.start()));
    }

    /** Share of the benches whose travel scatter lies in its interval. */
    double travelCovered() {
        return share(o -> covers(o.found().travelScatterMmPerSqrtM(), o.travel()));
    }

    private double share(ToDoubleFunction<Outcome> what) {
        return outcomes.stream().mapToDouble(what).average().orElseThrow();
    }

    private static double within(@Nullable Estimate estimate, double truth, double factor) {
        return estimate != null && estimate.value() <= truth * factor && estimate.value() >= truth / factor ? 1 : 0;
    }

    private static double covers(@Nullable Estimate estimate, double truth) {
        return estimate != null && estimate.low() <= truth && truth <= estimate.high() ? 1 : 0;
    }
}
