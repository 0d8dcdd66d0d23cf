package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
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

/**
 * How often "conforms" is said although the true mean error lies exactly on the limit. One material at one to three
 * speeds, all with that error; typed readings in whole counts of 0.05 mm, scatter of a pass a fifth of a count to a
 * count, stroke 900 to 1200 mm, limit 0.1 to 0.3 %. The reference errs by one draw from its certificate, the same in
 * every pass. Nothing of the evaluation is used to make the readings.
 */
final class DecisionStudy {
    private static final double COUNT_MM = 0.05;
    private static final double REFERENCE_U_MM = 0.004;
    private static final double REFERENCE_U_PPM = 5;

    /** Order of the passes. */
    enum Order {
        /** Forward and return in turn. */
        ALTERNATING,
        /** Forward passes one after the other, the counter running on. */
        FORWARD
    }

    /**
     * Decisions counted.
     *
     * @param conditions conditions judged
     * @param mean those of which the mean error was said to conform
     * @param single those of which a single pass was said to conform
     */
    record Counts(int conditions, int mean, int single) {
        Counts plus(Counts other) {
            return new Counts(conditions + other.conditions, mean + other.mean, single + other.single);
        }

        double falseMean() {
            return (double) mean / conditions;
        }

        double falseSingle() {
            return (double) single / conditions;
        }

        String figures() {
            return String.format(
                    Locale.ROOT, "%d conditions: mean %.4f, single pass %.4f", conditions, falseMean(), falseSingle());
        }
    }

    private DecisionStudy() {}

    /** Runs trials with so many passes a condition; thin ones have two or three speeds. */
    static Counts run(long seed, int trials, Order order, int passes, int speeds) {
        return IntStream.range(0, trials)
                .parallel()
                .mapToObj(k -> one(new SplittableRandom(seed + 1_000_003L * k), order, passes, speeds))
                .reduce(new Counts(0, 0, 0), Counts::plus);
    }

    private static Counts one(SplittableRandom random, Order order, int passes, int speeds) {
        double stroke = random.nextDouble(900, 1200);
        double limit = random.nextDouble(0.001, 0.003);
        double scatter = COUNT_MM * Math.pow(5, -random.nextDouble());
        double sign = random.nextBoolean() ? 1 : -1;
        // the certificate's error: positions off by a fixed part at the far end and by a share of the length
        double referenceOff = random.nextGaussian() * REFERENCE_U_MM / 2;
        double referenceScale = random.nextGaussian() * REFERENCE_U_PPM / 2 * 1e-6;
        List<Series> series = new ArrayList<>();
        for (int v = 0; v < speeds; v++) {
            List<Standstill> rows = new ArrayList<>();
            double reference = 0;
            double indication = random.nextDouble(0, 1);
            rows.add(row(reference, indication));
            for (int p = 0; p < passes; p++) {
                double direction = order == Order.ALTERNATING && p % 2 == 1 ? -1 : 1;
                double trueMove = direction * (stroke + referenceOff + referenceScale * stroke);
                reference += direction * stroke;
                indication += trueMove * (1 + sign * limit) + direction * scatter * random.nextGaussian();
                rows.add(row(reference, indication));
            }
            series.add(new Series("s" + v, "surface", "", 50.0 * (v + 1), 500.0, rows));
        }
        Trial trial = new Trial(
                "limit",
                new Sensor("", "", COUNT_MM, null, null),
                new Reference("", Reference.Kind.AXIS, REFERENCE_U_MM, REFERENCE_U_PPM, 2, null, null),
                Limit.of(limit, 0),
                null,
                Setup.NOTHING_NOTED,
                DecisionRule.PROBABILITY,
                ReadingMode.CUMULATIVE,
                series,
                List.of(),
                List.of(),
                List.of());
        List<Condition> rows = Evaluation.of(trial).leading("surface");
        return new Counts(
                rows.size(),
                (int) rows.stream()
                        .filter(row -> row.decision() == Answer.CONFORMS)
                        .count(),
                (int) rows.stream()
                        .filter(row -> row.singlePassDecision() == Answer.CONFORMS)
                        .count());
    }

    private static Standstill row(double reference, double indication) {
        double rounded = Math.round(indication / COUNT_MM) * COUNT_MM;
        return new Standstill(
                reference,
                Math.round(rounded * 100) / 100.0,
                2,
                null,
                null,
                null,
                null,
                "",
                SourcePosition.ofFile("readings.csv"));
    }
}
