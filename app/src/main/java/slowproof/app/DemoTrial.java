package slowproof.app;

import java.time.Instant;
import slowproof.trial.Limit;
import slowproof.trial.Reference;
import slowproof.trial.Sensor;
import slowproof.trial.Series;
import slowproof.trial.StatedAccuracy;
import slowproof.trial.Trial;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.DemoPlant;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.SimulatedTrial;

/** The invented trial of the demo: three surfaces under a carriage, ten speeds and a second stroke. */
final class DemoTrial {
    /** Seed of the invented readings: the demo shows the same numbers everywhere. */
    static final long SEED = 1;

    private static final Instant START = Instant.parse("2026-03-02T08:00:00Z");

    private DemoTrial() {}

    static Trial make() {
        BenchPlan plan = DemoPlant.plan(START);
        Limit limit = Limit.of(DemoPlant.LIMIT_RATIO, DemoPlant.LIMIT_MM);
        Trial simulated = SimulatedTrial.of("", plan, Bench.read(plan, RandomStreams.of(SEED)), limit);
        return new Trial(
                "Demo: three surfaces of an invented plant",
                new Sensor("bench sensor", "invented-1", DemoPlant.DISTANCE_PER_COUNT_MM, 32, null),
                new Reference(
                        "carriage scale",
                        Reference.Kind.AXIS,
                        DemoPlant.REFERENCE_EXPANDED_MM,
                        DemoPlant.REFERENCE_EXPANDED_PPM,
                        2,
                        null,
                        null),
                limit,
                new StatedAccuracy(0.0005, 200),
                simulated.setup(),
                simulated.rule(),
                simulated.mode(),
                simulated.series().stream().map(DemoTrial::withStroke).toList(),
                simulated.recorded(),
                simulated.pieces(),
                simulated.exclusions());
    }

    /** The two strokes are kept apart as set-ups: their ramps and start losses weigh differently. */
    private static Series withStroke(Series series) {
        double stroke = Math.abs(series.standstills().get(1).referenceMm()
                - series.standstills().get(0).referenceMm());
        boolean shortStroke = stroke < (DemoPlant.STROKE_MM + DemoPlant.SHORT_STROKE_MM) / 2;
        return new Series(
                series.name(),
                series.material(),
                shortStroke ? "stroke 250 mm" : "stroke 900 mm",
                series.speedMmPerS(),
                series.accelerationMmPerS2(),
                series.standstills());
    }
}
