package slowproof.trial.findings;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import slowproof.trial.curve.StudiesPage;
import slowproof.trial.findings.DecisionStudy.Counts;
import slowproof.trial.findings.DecisionStudy.Order;

/** "Conforms" is seldom said of an error on the limit. */
class DecisionStudyTest {
    private static final long SEED = Long.getLong("slowproof.seed", 20_261_126);
    private static final int USUAL = 4000;
    private static final int TRIALS = Integer.getInteger("slowproof.trials", USUAL);
    private static final double DEMANDED = 0.05;
    private static final double MEAN_ON_LIMIT = 0.5;
    private static final double PASS_ON_LIMIT = 0.05;
    private static final double[] OUTSIDE = {PASS_ON_LIMIT, 0.1, 0.2, 0.35, MEAN_ON_LIMIT};

    @Test
    void errorOnTheLimitSeldomConforms() {
        for (Order order : Order.values()) {
            Counts counts = DecisionStudy.run(SEED, 300, MEAN_ON_LIMIT, order, 6, 2);
            check(order + ", 6 passes", counts);
        }
    }

    @Test
    @Tag("long")
    void errorOnTheLimitSeldomConformsWhateverTheNumberOfPasses() {
        List<String> lines = new ArrayList<>();
        lines.add("| order | passes | speeds | mean | single pass |");
        lines.add("|---|---|---|---|---|");
        for (Order order : Order.values()) {
            for (int passes : new int[] {2, 4, 6, 10}) {
                for (int speeds : new int[] {1, 3}) {
                    Counts counts = DecisionStudy.run(SEED, TRIALS, MEAN_ON_LIMIT, order, passes, speeds);
                    check(order + ", " + passes + " passes", counts);
                    lines.add(String.format(
                            Locale.ROOT,
                            "| %s | %d | %d | %.4f | %.4f |",
                            order.name().toLowerCase(Locale.ROOT),
                            passes,
                            speeds,
                            counts.falseMean(),
                            counts.falseSingle()));
                }
            }
        }
        if (TRIALS >= USUAL) {
            StudiesPage.write("decisions", lines);
        }
    }

    @Test
    void nextPassSeldomBreaksThePromise() {
        for (Order order : Order.values()) {
            checkNext(order + ", 6 passes", DecisionStudy.run(SEED, 300, 0.2, order, 6, 2));
        }
    }

    @Test
    @Tag("long")
    void nextPassSeldomBreaksThePromiseWhateverTheNumberOfPasses() {
        List<String> lines = new ArrayList<>();
        lines.add(
                "| order | passes | speeds | said to conform, 5 % outside | 10 % | 20 % | promised and broken, worst |");
        lines.add("|---|---|---|---|---|---|---|");
        for (Order order : Order.values()) {
            for (int passes : new int[] {2, 4, 6, 10, 40}) {
                for (int speeds : new int[] {1, 3}) {
                    lines.add(promises(order, passes, speeds));
                }
            }
        }
        if (TRIALS >= USUAL) {
            StudiesPage.write("promises of a pass", lines);
        }
    }

    private static String promises(Order order, int passes, int speeds) {
        double[] said = new double[OUTSIDE.length];
        double worst = 0;
        for (int i = 0; i < OUTSIDE.length; i++) {
            Counts counts = DecisionStudy.run(SEED, TRIALS, OUTSIDE[i], order, passes, speeds);
            checkNext(order + ", " + passes + " passes, outside " + OUTSIDE[i], counts);
            said[i] = counts.falseSingle();
            worst = Math.max(worst, counts.brokenShare());
        }
        return String.format(
                Locale.ROOT,
                "| %s | %d | %d | %.4f | %.4f | %.4f | %.4f |",
                order.name().toLowerCase(Locale.ROOT),
                passes,
                speeds,
                said[0],
                said[1],
                said[2],
                worst);
    }

    private static void checkNext(String what, Counts counts) {
        assertThat(counts.brokenShare()).as(what + ": " + counts.figures()).isLessThanOrEqualTo(allowed(counts));
    }

    private static void check(String what, Counts counts) {
        assertThat(counts.falseMean()).as(what + ": " + counts.figures()).isLessThanOrEqualTo(allowed(counts));
        assertThat(counts.falseSingle()).as(what + ": " + counts.figures()).isLessThanOrEqualTo(allowed(counts));
    }

    private static double allowed(Counts counts) {
        return DEMANDED + 2 * Math.sqrt(DEMANDED * (1 - DEMANDED) / counts.conditions());
    }
}
