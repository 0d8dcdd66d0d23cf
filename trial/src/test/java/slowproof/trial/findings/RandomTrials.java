package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
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

/** Makes small random trials for property tests. */
final class RandomTrials {
    static final int DECIMALS = 2;

    private RandomTrials() {}

    static Trial trial(SplittableRandom random) {
        List<Series> series = new ArrayList<>();
        int materials = 1 + random.nextInt(3);
        for (int m = 0; m < materials; m++) {
            int speeds = 1 + random.nextInt(4);
            for (int v = 0; v < speeds; v++) {
                series.add(series("m" + m + "-" + v, "material " + m, 20.0 * (v + 1), random));
            }
        }
        return of(series);
    }

    static Trial of(List<Series> series) {
        return of(series, new Reference("", Reference.Kind.AXIS, 0.02, 8.0, 2, null, null), Limit.of(0.001, 0.1));
    }

    /** Returns a trial of typed readings in steps of 0.05 mm. */
    static Trial of(List<Series> series, Reference reference, Limit limit) {
        return new Trial(
                "random",
                new Sensor("", "", 0.05, null, null),
                reference,
                limit,
                null,
                Setup.NOTHING_NOTED,
                DecisionRule.PROBABILITY,
                ReadingMode.CUMULATIVE,
                series,
                List.of(),
                List.of(),
                List.of());
    }

    static Series series(String name, String material, double speed, SplittableRandom random) {
        int passes = 1 + random.nextInt(8);
        double error = random.nextDouble(-0.003, 0.003);
        List<Standstill> rows = new ArrayList<>();
        long reference = 0;
        long reading = random.nextInt(1000);
        rows.add(row(reference, reading));
        for (int p = 0; p < passes; p++) {
            long move = (random.nextInt(5) == 0 ? 1 : (p % 2 == 0 ? 1 : -1)) * (40_000L + random.nextInt(40_000));
            reference += move;
            reading += Math.round(move * (1 + error + random.nextDouble(-0.0002, 0.0002)));
            rows.add(row(reference, reading));
        }
        return new Series(name, material, "", speed, random.nextBoolean() ? 500.0 : null, rows);
    }

    /** A row from hundredths of a millimetre, as somebody would type it. */
    static Standstill row(long referenceHundredths, long readingHundredths) {
        return new Standstill(
                referenceHundredths / 100.0,
                readingHundredths / 100.0,
                DECIMALS,
                null,
                null,
                null,
                null,
                "",
                SourcePosition.ofFile("random"));
    }

    static Series mapped(Series series, double referenceSign, double readingSign, double offset) {
        List<Standstill> rows = series.standstills().stream()
                .map(row -> new Standstill(
                        referenceSign * row.referenceMm() + offset,
                        readingSign * row.readingMm() + offset,
                        row.decimals(),
                        null,
                        null,
                        null,
                        null,
                        "",
                        row.at()))
                .toList();
        return new Series(
                series.name(), series.material(), "", series.speedMmPerS(), series.accelerationMmPerS2(), rows);
    }
}
