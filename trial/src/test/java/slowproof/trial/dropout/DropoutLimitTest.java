package slowproof.trial.dropout;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import slowproof.trial.dropout.DropoutLimit.Reason;
import slowproof.trial.dropout.DropoutLimit.Status;
import slowproof.trial.scatter.PassError;

class DropoutLimitTest {
    private static final double LIMIT = 0.002;

    @Test
    void separatedClassesGiveTheGap() {
        DropoutLimit limit = DropoutLimit.of(
                List.of(pass("a", 0.2, false), pass("a", 0.9, false), pass("b", 3.1, true), pass("b", 4.0, true)),
                LIMIT,
                1);
        assertThat(limit.status()).isEqualTo(Status.FOUND_SEPARATED);
        assertThat(limit.limitPct()).isEqualTo(0.9);
        assertThat(limit.gapLowPct()).isEqualTo(0.9);
        assertThat(limit.gapHighPct()).isEqualTo(3.1);
        assertThat(limit.sensitivity()).isEqualTo(1);
        assertThat(limit.falseAlarm()).isZero();
        assertThat(limit.confidencePct()).isNull();
        assertThat(limit.averagedOverMm()).isEqualTo(1000);
        assertThat(limit.series()).isEqualTo(2);
    }

    @Test
    void noFailureTeachesNothingButTheLargestGoodShare() {
        DropoutLimit limit = DropoutLimit.of(List.of(pass("a", 0.2, false), pass("b", 0.9, false)), LIMIT, 1);
        assertThat(limit.status()).isEqualTo(Status.NOT_LEARNABLE);
        assertThat(limit.reason()).isEqualTo(Reason.NO_PASS_FAILED);
        assertThat(limit.gapLowPct()).isEqualTo(0.9);
        assertThat(limit.gapHighPct()).isNull();
        assertThat(limit.limitPct()).isNull();
    }

    @Test
    void onlyFailuresTeachNothingButTheSmallestBadShare() {
        DropoutLimit limit = DropoutLimit.of(
                List.of(pass("a", 2.5, true), pass("b", 7, true), pass("c", Double.NaN, false)), LIMIT, 1);
        assertThat(limit.reason()).isEqualTo(Reason.ONLY_FAILED_PASSES);
        assertThat(limit.gapHighPct()).isEqualTo(2.5);
        assertThat(limit.gapLowPct()).isNull();
    }

    @Test
    void noShareAtAllIsSaid() {
        DropoutLimit limit = DropoutLimit.of(List.of(pass("c", Double.NaN, false)), LIMIT, 1);
        assertThat(limit.reason()).isEqualTo(Reason.NO_SHARES);
        assertThat(limit.averagedOverMm()).isNaN();
    }

    @Test
    void errorExactlyOnTheLimitIsInside() {
        PassError onLimit = PassError.ofMove("a/1", "a", 0, false, 1, 0.6, 300, 100, Double.NaN, 0.5);
        assertThat(DropoutLimit.of(List.of(onLimit), LIMIT, 1).reason()).isEqualTo(Reason.NO_PASS_FAILED);
    }

    @Test
    void overlapOfFewSeriesIsNotLearned() {
        List<PassError> passes = new ArrayList<>();
        for (int i = 0; i < 30; i++) {
            passes.add(pass("a", 1 + 0.01 * i, i % 3 == 0));
            passes.add(pass("b", 2 + 0.01 * i, i % 2 == 0));
        }
        assertThat(DropoutLimit.of(passes, LIMIT, 1).reason()).isEqualTo(Reason.TOO_FEW_SERIES);
    }

    @Test
    void smallSharesWithFailuresAreNotBlamedOnDropouts() {
        List<PassError> passes = new ArrayList<>();
        for (int s = 0; s < 8; s++) {
            for (int i = 0; i < 10; i++) {
                passes.add(pass("s" + s, s + 0.01 * i, s < 3));
            }
        }
        passes.add(pass("s7", 7.5, true));
        assertThat(DropoutLimit.of(passes, LIMIT, 1).reason()).isEqualTo(Reason.NOT_RELATED);
    }

    @Test
    void overlapGivesALimitWithABound() {
        List<PassError> passes = overlapping(3, 24, 20);
        DropoutLimit limit = DropoutLimit.of(passes, LIMIT, 5);
        assertThat(limit.status()).isEqualTo(Status.FOUND);
        assertThat(limit.limitPct()).isLessThanOrEqualTo(limit.estimatePct());
        // chance 5 % where ln(share/3) = -2.944/4: 1.44 %
        assertThat(limit.estimatePct()).isCloseTo(1.44, within(0.7));
        assertThat(limit.confidencePct()).isEqualTo(95);
        assertThat(limit.sensitivity()).isGreaterThan(0.9);
        assertThat(limit.falseAlarm()).isBetween(0.0, 0.9);
        assertThat(DropoutLimit.of(passes, LIMIT, 5)).isEqualTo(limit);
    }

    @Test
    void limitIsSeldomTooGenerous() {
        long seed = Long.getLong("slowproof.seed", 77);
        int trials = Integer.getInteger("slowproof.trials", 20);
        int found = 0;
        int tooHigh = 0;
        for (int t = 0; t < trials; t++) {
            DropoutLimit limit = DropoutLimit.of(overlapping(seed + t, 24, 10), LIMIT, seed + t);
            if (limit.status() == Status.FOUND) {
                found++;
                tooHigh += limit.limitPct() > 3 * Math.exp(-Math.log(19) / 4) ? 1 : 0;
            }
        }
        assertThat(found).as("seed %d", seed).isGreaterThan(trials / 2);
        double slack = 2 * Math.sqrt(0.05 * 0.95 / trials);
        assertThat((double) tooHigh / trials).as("seed %d", seed).isLessThanOrEqualTo(0.10 + slack);
    }

    @Test
    void limitOfErrorMustBePositive() {
        assertThatIllegalArgumentException().isThrownBy(() -> DropoutLimit.of(List.of(), Double.NaN, 1));
    }

    /** Series of different health; the chance of a bad pass is logistic in ln(share), one half at 3 %, slope 4. */
    private static List<PassError> overlapping(long seed, int series, int passes) {
        SplittableRandom random = new SplittableRandom(seed);
        List<PassError> out = new ArrayList<>();
        for (int s = 0; s < series; s++) {
            double health = 0.2 * Math.pow(75, random.nextDouble());
            for (int i = 0; i < passes; i++) {
                double share = health * (0.8 + 0.4 * random.nextDouble());
                double chance = 1 / (1 + Math.pow(share / 3, -4));
                out.add(pass("s" + s, share, random.nextDouble() < chance));
            }
        }
        return out;
    }

    private static PassError pass(String series, double dropoutPct, boolean outside) {
        return PassError.ofMove(series, series, 0, false, 1, outside ? 3 : 0.5, 1000, 100, Double.NaN, dropoutPct);
    }
}
