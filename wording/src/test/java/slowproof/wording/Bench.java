package slowproof.wording;

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
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.input.SourcePosition;

/** Builds invented trials for tests: forward and back over one stroke of 750 mm, errors given in mm. */
final class Bench {
    private static final double STROKE_MM = 750;

    private final List<Series> series = new ArrayList<>();
    private final List<Exclusion> exclusions = new ArrayList<>();
    private Reference reference = new Reference("carriage scale", Reference.Kind.AXIS, 0.02, 8.0, 2, null, null);
    private @Nullable Limit limit = Limit.of(0.0015, 0.05);
    private DecisionRule rule = DecisionRule.PROBABILITY;

    Bench unknownReference() {
        reference = Reference.unknown();
        return this;
    }

    Bench coarseReference() {
        reference = new Reference("tape", Reference.Kind.TAPE, 2.0, null, 2, null, null);
        return this;
    }

    Bench noLimit() {
        limit = null;
        return this;
    }

    Bench rule(DecisionRule other) {
        rule = other;
        return this;
    }

    Bench excluding(String pass, String reason) {
        exclusions.add(new Exclusion(pass, reason, SourcePosition.ofFile("trial.yaml")));
        return this;
    }

    /** Adds passes, alternately forward and back, with these errors of indication. */
    Bench passes(String name, String material, double speedMmPerS, double... errorsMm) {
        List<Standstill> rows = new ArrayList<>();
        double reading = 0;
        rows.add(row(0, reading));
        for (int i = 0; i < errorsMm.length; i++) {
            boolean forward = i % 2 == 0;
            double indicated = STROKE_MM + errorsMm[i];
            reading = Math.round((reading + (forward ? indicated : -indicated)) * 100) / 100.0;
            rows.add(row(forward ? STROKE_MM : 0, reading));
        }
        series.add(new Series(name, material, "", speedMmPerS, 500.0, rows));
        return this;
    }

    private static Standstill row(double referenceMm, double readingMm) {
        return new Standstill(
                referenceMm, readingMm, 2, null, null, null, null, "", SourcePosition.ofFile("readings.csv"));
    }

    Findings findings() {
        return Evaluation.of(new Trial(
                "Invented trial",
                new Sensor("bench sensor", "invented-1", 0.05, 32, null),
                reference,
                limit,
                null,
                Setup.NOTHING_NOTED,
                rule,
                ReadingMode.CUMULATIVE,
                series,
                List.of(),
                List.of(),
                exclusions));
    }

    /** Both surfaces at two speeds; the slow one on felt is where mean and single pass differ. */
    static Bench twoSurfaces() {
        return new Bench()
                .passes("felt-250", "acoustic felt", 250, 0.10, 0.15, 0.15, 0.10, 0.10, 0.15, 0.15, 0.10)
                .passes("felt-63", "acoustic felt", 63, 1.05, 1.15, 1.10, 1.00, 1.10, 1.15, 1.05, 1.05)
                .passes("film-250", "clear film", 250, -0.20, -0.30, -0.25, -0.30, -0.25, -0.25, -0.20, -0.30)
                .passes("film-63", "clear film", 63, -4.10, -4.40, -4.20, -4.35, -4.15, -4.30, -4.25, -4.30);
    }
}
