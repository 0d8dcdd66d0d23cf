package slowproof.metrology.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.AhrensDieterMarsagliaTsangGammaSampler;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import slowproof.metrology.reference.ValidationPage;
import slowproof.metrology.sampling.BlockStreams;

/**
 * How often estimate +/- k u_c holds the true value, when u_c is put together from two independent parts of which one
 * or both are known from few readings. The truth is a normal error with known deviations; each trial draws the error
 * and the estimated uncertainties.
 */
class CoverageTest {

    private static final double INFINITE = Double.POSITIVE_INFINITY;
    private static final double PROBABILITY = 0.95;

    /** Degrees of freedom of the two parts, and the ratio of their true standard deviations. */
    private record Situation(double nuA, double nuB, double ratio) {

        String row(double coverage) {
            return String.format(
                    Locale.ROOT, "| %s | %s | %s | %.1f |", text(nuA), text(nuB), text(ratio), 100 * coverage);
        }

        private static String text(double number) {
            return number == INFINITE ? "infinite" : String.format(Locale.ROOT, number < 1 ? "%.1f" : "%.0f", number);
        }
    }

    private static final List<Situation> SITUATIONS = situations();

    private static List<Situation> situations() {
        List<Situation> all = new ArrayList<>();
        double[][] degrees = {
            {1, 1}, {1, INFINITE}, {2, 2}, {2, INFINITE}, {4, 4}, {4, INFINITE}, {9, 2}, {9, 9}, {9, INFINITE}
        };
        for (double[] pair : degrees) {
            for (double ratio : new double[] {0.3, 1, 3}) {
                all.add(new Situation(pair[0], pair[1], ratio));
            }
        }
        return all;
    }

    private static double coverage(Situation situation, int trials, UniformRandomProvider random) {
        ContinuousSampler normal = ZigguratSampler.NormalizedGaussian.of(random);
        double sigmaA = situation.ratio();
        int held = 0;
        for (int trial = 0; trial < trials; trial++) {
            double error = sigmaA * normal.sample() + normal.sample();
            Combined combined = Combined.of(List.of(
                    new Component("A", sigmaA * estimated(situation.nuA(), random), situation.nuA()),
                    new Component("B", estimated(situation.nuB(), random), situation.nuB())));
            held += Math.abs(error) <= combined.expandedUncertainty(PROBABILITY) ? 1 : 0;
        }
        return (double) held / trials;
    }

    /** A standard deviation of true value 1, as estimated with so many degrees of freedom. */
    private static double estimated(double nu, UniformRandomProvider random) {
        return nu == INFINITE
                ? 1
                : Math.sqrt(AhrensDieterMarsagliaTsangGammaSampler.of(random, nu / 2, 2 / nu)
                        .sample());
    }

    @Test
    void expandedUncertaintyHoldsTheTruth() {
        long seed = Long.getLong("slowproof.seed", 2026L);
        BlockStreams streams = BlockStreams.of(seed);
        for (Situation situation : SITUATIONS) {
            // 2000 trials: standard error 0.5 %
            double coverage = coverage(situation, 2000, streams.next());
            boolean enough = situation.nuA() >= 4 && situation.nuB() >= 4;
            assertThat(coverage).as("seed %s, %s", seed, situation).isBetween(enough ? 0.925 : 0.85, 0.99);
        }
    }

    @Test
    @Tag("long")
    void coverageIsThatOfTheValidationPage() {
        long seed = Long.getLong("slowproof.seed", 2026L);
        int trials = Integer.getInteger("slowproof.trials", 20_000);
        BlockStreams streams = BlockStreams.of(seed);
        List<String> rows = new ArrayList<>();
        rows.add("| degrees of freedom of A | of B | true u of A over true u of B | coverage in % |");
        rows.add("|---|---|---|---|");
        for (Situation situation : SITUATIONS) {
            double coverage = coverage(situation, trials, streams.next());
            rows.add(situation.row(coverage));
            if (situation.nuA() >= 4 && situation.nuB() >= 4) {
                // standard error of 20,000 trials 0.15 %
                assertThat(coverage).as("seed %s, %s", seed, situation).isBetween(0.94, 0.965);
            }
        }
        ValidationPage.compareOrWrite("coverage of the expanded uncertainty", rows, 0.7);
    }
}
