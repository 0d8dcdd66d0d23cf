package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import slowproof.metrology.Distributions;
import slowproof.trial.Limit;
import slowproof.trial.Reference;
import slowproof.trial.Series;
import slowproof.trial.Standstill;
import slowproof.trial.Trial;
import slowproof.trial.input.SourcePosition;

/**
 * How often "conforms" is said although the truth lies exactly on the limit. One material at one to three speeds, all
 * with that truth; typed readings in whole counts of 0.05 mm, scatter of a pass a fifth of a count to a count, stroke
 * 900 to 1200 mm, limit 0.1 to 0.3 %. The reference errs by one draw from its certificate, the same in every pass.
 * Nothing of the evaluation is used to make the readings.
 *
 * <p>The truth is given as the share of passes to come that lie outside, scatter and both roundings included. A half puts
 * the mean error exactly on the limit; 5 % puts a single pass on it, because the answer about a pass says that 95 % lie
 * inside: the mean error is then about 1.6 standard deviations of a pass better than the limit.
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
     * @param broken those of which a single pass was said to conform and the very next pass lay outside
     */
    record Counts(int conditions, int mean, int single, int broken) {
        Counts plus(Counts other) {
            return new Counts(
                    conditions + other.conditions, mean + other.mean, single + other.single, broken + other.broken);
        }

        double falseMean() {
            return (double) mean / conditions;
        }

        double falseSingle() {
            return (double) single / conditions;
        }

        /** Returns the share of conditions with a promise that the next pass broke. */
        double brokenShare() {
            return (double) broken / conditions;
        }

        String figures() {
            return String.format(
                    Locale.ROOT,
                    "%d conditions: mean %.4f, single pass %.4f, broken by the next pass %.4f",
                    conditions,
                    falseMean(),
                    falseSingle(),
                    brokenShare());
        }
    }

    private DecisionStudy() {}

    /**
     * Runs trials with so many passes a condition; thin ones have two or three speeds.
     *
     * @param outside share of passes outside the limit, above 0 and at most 0.5
     */
    static Counts run(long seed, int trials, double outside, Order order, int passes, int speeds) {
        return IntStream.range(0, trials)
                .parallel()
                .mapToObj(k -> one(new SplittableRandom(seed + 1_000_003L * k), outside, order, passes, speeds))
                .reduce(new Counts(0, 0, 0, 0), Counts::plus);
    }

    private static Counts one(SplittableRandom random, double outside, Order order, int passes, int speeds) {
        double stroke = random.nextDouble(900, 1200);
        double limit = random.nextDouble(0.001, 0.003);
        double scatter = COUNT_MM * Math.pow(5, -random.nextDouble());
        double sign = random.nextBoolean() ? 1 : -1;
        double meanError = sign * (limit - exceededBy(outside, scatter) / stroke);
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
                indication += trueMove * (1 + meanError) + direction * scatter * random.nextGaussian();
                rows.add(row(reference, indication));
            }
            series.add(new Series("s" + v, "surface", "", 50.0 * (v + 1), 500.0, rows));
        }
        Trial trial = RandomTrials.of(
                series,
                new Reference("", Reference.Kind.AXIS, REFERENCE_U_MM, REFERENCE_U_PPM, 2, null, null),
                Limit.of(limit, 0));
        int mean = 0;
        int single = 0;
        int broken = 0;
        List<Condition> rows = Evaluation.of(trial).leading("surface");
        for (Condition row : rows) {
            double next = nextPass(random, stroke, meanError, scatter);
            mean += row.decision() == Answer.CONFORMS ? 1 : 0;
            if (row.singlePassDecision() == Answer.CONFORMS) {
                single++;
                broken += Math.abs(next) > limit * stroke ? 1 : 0;
            }
        }
        return new Counts(rows.size(), mean, single, broken);
    }

    /** Returns the error of one further pass in mm; it begins and ends anywhere within a count. */
    private static double nextPass(SplittableRandom random, double stroke, double meanError, double scatter) {
        double start = random.nextDouble(0, COUNT_MM);
        double length = stroke + random.nextDouble(0, COUNT_MM);
        double end = start + length + stroke * meanError + scatter * random.nextGaussian();
        return (Math.round(end / COUNT_MM) - Math.round(start / COUNT_MM)) * COUNT_MM - length;
    }

    /**
     * Returns what that share of the passes exceeds, in mm from the mean: normal scatter and two roundings, each uniform
     * over a count. The tail beyond their triangular sum is a second difference of the twice integrated normal tail.
     */
    private static double exceededBy(double share, double scatter) {
        double low = 0;
        double high = 2 * COUNT_MM + 10 * scatter;
        for (int i = 0; i < 60; i++) {
            double x = (low + high) / 2;
            double tail = (integratedTail(x + COUNT_MM, scatter)
                            - 2 * integratedTail(x, scatter)
                            + integratedTail(x - COUNT_MM, scatter))
                    / (COUNT_MM * COUNT_MM);
            if (tail > share) {
                low = x;
            } else {
                high = x;
            }
        }
        return low;
    }

    /** Half the expected square of what a normal scatter exceeds y by: its second derivative is the tail beyond y. */
    private static double integratedTail(double y, double scatter) {
        double z = y / scatter;
        double density = Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
        return ((scatter * scatter + y * y) * Distributions.normalCdf(-z) - y * scatter * density) / 2;
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
