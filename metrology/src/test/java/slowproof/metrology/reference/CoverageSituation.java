package slowproof.metrology.reference;

import java.util.function.Function;
import java.util.function.ToIntFunction;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;

/**
 * One interval in one situation with a known truth: a trial draws data and tells whether the interval held the truth.
 *
 * @param interval what is judged
 * @param situation size of the data and truth
 * @param kind what the interval promises
 * @param cost how many times fewer trials in the ordinary test run, for the slow ones
 * @param trial from a source of normal values to 1 (held) or 0
 */
record CoverageSituation(String interval, String situation, Kind kind, int cost, ToIntFunction<Draws> trial) {

    /** What an interval of stated level 95 % promises. */
    enum Kind {
        EXACT("exact", 0.945, 0.955),
        CONSERVATIVE("at least", 0.95, 1),
        APPROXIMATE("approximate", 0.8, 1);

        private final String text;
        private final double low;
        private final double high;

        Kind(String text, double low, double high) {
            this.text = text;
            this.low = low;
            this.high = high;
        }

        String text() {
            return text;
        }

        /** Whether a coverage keeps the promise, four standard errors of the simulation granted beyond 20,000 trials. */
        boolean keeps(double coverage, int trials) {
            double grace = trials >= 20_000 ? 0 : 4 * Math.sqrt(0.95 * 0.05 / trials);
            // a conservative interval may sit exactly on its level: only the simulation's own error is granted there
            double own = this == CONSERVATIVE ? 3 * Math.sqrt(0.95 * 0.05 / trials) : 0;
            return coverage >= low - Math.max(grace, own) && coverage <= high + grace;
        }
    }

    static CoverageSituation exact(String interval, String situation, Function<Draws, Boolean> trial) {
        return new CoverageSituation(interval, situation, Kind.EXACT, 1, draws -> trial.apply(draws) ? 1 : 0);
    }

    static CoverageSituation atLeast(String interval, String situation, Function<Draws, Boolean> trial) {
        return new CoverageSituation(interval, situation, Kind.CONSERVATIVE, 1, draws -> trial.apply(draws) ? 1 : 0);
    }

    static CoverageSituation about(String interval, String situation, int cost, Function<Draws, Boolean> trial) {
        return new CoverageSituation(interval, situation, Kind.APPROXIMATE, cost, draws -> trial.apply(draws) ? 1 : 0);
    }

    double coverage(int trials, UniformRandomProvider random) {
        Draws draws = new Draws(random);
        int held = 0;
        for (int i = 0; i < trials; i++) {
            held += trial.applyAsInt(draws);
        }
        return (double) held / trials;
    }

    /** Random values for the trials. */
    static final class Draws {
        private final UniformRandomProvider random;
        private final ZigguratSampler.NormalizedGaussian normal;

        Draws(UniformRandomProvider random) {
            this.random = random;
            normal = ZigguratSampler.NormalizedGaussian.of(random);
        }

        double normal() {
            return normal.sample();
        }

        double uniform() {
            return random.nextDouble();
        }

        long seed() {
            return random.nextLong();
        }

        double[] normals(int n, double mean, double deviation) {
            double[] result = new double[n];
            for (int i = 0; i < n; i++) {
                result[i] = mean + deviation * normal();
            }
            return result;
        }

        int successes(int n, double share) {
            int count = 0;
            for (int i = 0; i < n; i++) {
                count += uniform() < share ? 1 : 0;
            }
            return count;
        }
    }
}
