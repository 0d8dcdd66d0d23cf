package slowproof.app.demo;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.conformity.DecisionRule;
import slowproof.trial.Exclusion;
import slowproof.trial.Limit;
import slowproof.trial.ReadingMode;
import slowproof.trial.Reference;
import slowproof.trial.Sensor;
import slowproof.trial.Series;
import slowproof.trial.Setup;
import slowproof.trial.Standstill;
import slowproof.trial.Trial;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.DemoPlant;
import slowproof.trial.simulator.Drive;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.SeriesPlan;
import slowproof.trial.simulator.SimSensor;
import slowproof.trial.simulator.SimulatedTrial;
import slowproof.trial.simulator.TrueMaterial;

/** The invented bench: it runs a surface at some speeds and gives the trial that a person would have written down. */
final class DemoBench {
    /** What is known of the carriage scale. */
    static final Reference SCALE = new Reference(
            "carriage scale",
            Reference.Kind.AXIS,
            DemoPlant.REFERENCE_EXPANDED_MM,
            DemoPlant.REFERENCE_EXPANDED_PPM,
            2,
            null,
            null);

    /** What the customers of the plant accept. */
    static final Limit LIMIT = Limit.of(DemoPlant.LIMIT_RATIO, DemoPlant.LIMIT_MM);

    private final long seed;

    /**
     * Makes a bench.
     *
     * @param seed seed of its readings
     */
    DemoBench(long seed) {
        this.seed = seed;
    }

    /**
     * How a trial is run.
     *
     * @param material the true surface
     * @param strokeMm length of a stroke, mm
     * @param cycles cycles at each speed
     * @param speedsMmPerS speeds in the order in which they are run, mm/s
     */
    record Run(TrueMaterial material, double strokeMm, int cycles, List<Double> speedsMmPerS) {
        /** Copies the list. */
        Run {
            speedsMmPerS = List.copyOf(speedsMmPerS);
        }

        /** Returns the plan of a run: series {@code s1}, {@code s2} and so on. */
        BenchPlan plan() {
            List<SeriesPlan> series = new ArrayList<>();
            for (double speed : speedsMmPerS) {
                series.add(SeriesPlan.alternating(
                        "s" + (series.size() + 1),
                        material,
                        strokeMm,
                        Drive.of(speed, DemoPlant.ACCELERATION_MM_PER_S2),
                        cycles));
            }
            return new BenchPlan(
                    series, SimSensor.of(DemoPlant.DISTANCE_PER_COUNT_MM), DemoPlant.reference(), 0.01, 1, 0, null);
        }
    }

    /**
     * Runs a surface.
     *
     * @param title title of the trial
     * @param run what is run
     * @param serial serial number of the sensor
     * @param setup set-up
     * @param reference what is known of the reference
     * @param limit limit, or null for none
     */
    Trial read(String title, Run run, String serial, Setup setup, Reference reference, @Nullable Limit limit) {
        BenchPlan plan = run.plan();
        List<Series> series = SimulatedTrial.of("", plan, Bench.read(plan, RandomStreams.of(seed)), LIMIT)
                .series();
        return new Trial(
                title,
                new Sensor("bench sensor", serial, DemoPlant.DISTANCE_PER_COUNT_MM, 32, null),
                reference,
                limit,
                null,
                setup,
                DecisionRule.PROBABILITY,
                ReadingMode.CUMULATIVE,
                series,
                List.of(),
                List.of(),
                List.of());
    }

    /**
     * Returns a trial in which the sensor was pushed during a pass, so that all later readings of the series are off; the
     * pass is left out with its reason.
     *
     * @param trial trial
     * @param series index of the series, from 0
     * @param pass number of the pass in the series, from 1
     * @param pushedMm by how much, mm
     * @param reason why the pass is left out
     */
    static Trial pushed(Trial trial, int series, int pass, double pushedMm, String reason) {
        List<Series> all = new ArrayList<>(trial.series());
        Series one = all.get(series);
        List<Standstill> rows = new ArrayList<>();
        for (Standstill row : one.standstills()) {
            rows.add(rows.size() < pass ? row : moved(row, pushedMm));
        }
        all.set(
                series,
                new Series(
                        one.name(), one.material(), one.setup(), one.speedMmPerS(), one.accelerationMmPerS2(), rows));
        return new Trial(
                trial.title(),
                trial.sensor(),
                trial.reference(),
                trial.limit(),
                trial.stated(),
                trial.setup(),
                trial.rule(),
                trial.mode(),
                all,
                trial.recorded(),
                trial.pieces(),
                List.of(new Exclusion(one.name() + "/" + pass, reason, new SourcePosition("demo", 0, 0, ""))));
    }

    private static Standstill moved(Standstill row, double byMm) {
        return new Standstill(
                row.referenceMm(),
                row.readingMm() + byMm,
                row.decimals(),
                row.dropoutPercent(),
                row.time(),
                row.indicatedSpeedMmPerS(),
                row.referenceSpeedMmPerS(),
                row.track(),
                row.at());
    }
}
