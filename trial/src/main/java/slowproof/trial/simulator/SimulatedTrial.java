package slowproof.trial.simulator;

import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.metrology.conformity.DecisionRule;
import slowproof.trial.Limit;
import slowproof.trial.ReadingMode;
import slowproof.trial.Reference;
import slowproof.trial.Sensor;
import slowproof.trial.Series;
import slowproof.trial.Setup;
import slowproof.trial.Standstill;
import slowproof.trial.Trial;
import slowproof.trial.input.SourcePosition;

/** Simulated readings as a trial that a person could have written down. */
public final class SimulatedTrial {
    private static final String SOURCE = "simulated";

    private SimulatedTrial() {}

    /**
     * Returns the readings as a trial, with the reference's standard uncertainties doubled as its certificate
     * (k = 2) and the default decision rule.
     *
     * @param title title
     * @param plan the plan that was run
     * @param bench its readings
     * @param limit the limit
     */
    public static Trial of(String title, BenchPlan plan, BenchReadings bench, Limit limit) {
        SimReference reference = plan.reference();
        return new Trial(
                title,
                new Sensor(
                        "simulated sensor",
                        "",
                        plan.sensor().distancePerCountMm(),
                        null,
                        plan.sensor().readingResolutionMm()),
                new Reference(
                        "simulated axis",
                        Reference.Kind.AXIS,
                        2 * reference.readingNoiseMm(),
                        2e6 * reference.scaleUncertaintyRatio(),
                        2,
                        null,
                        null),
                limit,
                null,
                Setup.NOTHING_NOTED,
                DecisionRule.PROBABILITY,
                ReadingMode.CUMULATIVE,
                series(plan, bench),
                List.of(),
                List.of(),
                List.of());
    }

    private static List<Series> series(BenchPlan plan, BenchReadings bench) {
        int decimals = Math.max(
                decimals(plan.reference().resolutionMm()),
                decimals(plan.sensor().readingResolutionMm()));
        Map<String, List<Standstill>> standstills = new LinkedHashMap<>();
        int line = 1;
        for (SimReading reading : bench.readings()) {
            line++;
            standstills
                    .computeIfAbsent(reading.series(), name -> new ArrayList<>())
                    .add(standstill(reading, decimals, line));
        }
        return plan.series().stream()
                .map(s -> new Series(
                        s.name(),
                        s.material().name(),
                        "",
                        s.drive().speedMmPerS(),
                        s.drive().accelerationMmPerS2(),
                        standstills.getOrDefault(s.name(), List.of())))
                .toList();
    }

    private static Standstill standstill(SimReading reading, int decimals, int line) {
        return new Standstill(
                reading.referenceMm(),
                reading.readingMm(),
                decimals,
                Double.isNaN(reading.dropoutPct()) ? null : reading.dropoutPct(),
                reading.time() == null ? null : LocalDateTime.ofInstant(reading.time(), ZoneOffset.UTC),
                null,
                null,
                reading.track(),
                new SourcePosition(SOURCE, line, 0, ""));
    }

    /** How many decimals a step needs; more than nine cannot be recorded. */
    private static int decimals(double step) {
        return Math.max(
                0, Math.min(9, BigDecimal.valueOf(step).stripTrailingZeros().scale()));
    }
}
