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

    @Test
    void errorOnTheLimitSeldomConforms() {
        for (Order order : Order.values()) {
            Counts counts = DecisionStudy.run(SEED, 300, order, 6, 2);
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
                    Counts counts = DecisionStudy.run(SEED, TRIALS, order, passes, speeds);
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

    private static void check(String what, Counts counts) {
        double allowed = DEMANDED + 2 * Math.sqrt(DEMANDED * (1 - DEMANDED) / counts.conditions());
        assertThat(counts.falseMean()).as(what + ": " + counts.figures()).isLessThanOrEqualTo(allowed);
        assertThat(counts.falseSingle()).as(what + ": " + counts.figures()).isLessThanOrEqualTo(allowed);
    }
}
