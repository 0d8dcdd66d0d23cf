package slowproof.trial.compare;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import slowproof.trial.compare.Difference.Caution;
import slowproof.trial.findings.Direction;

/** Against published figures and those of SciPy; nothing but scatter makes it the test of Welch. */
class DifferenceTest {
    /** A result of n readings with their mean and standard deviation, and nothing else uncertain. */
    private static Level readings(int n, double mean, double s) {
        return level(mean, s / Math.sqrt(n), n - 1, 0.0, 0);
    }

    private static Level level(double mean, Double scatter, double freedom, Double reference, double other) {
        return new Level(50, 500.0, Direction.FORWARD, 900, 6, mean, scatter, freedom, reference, other, false);
    }

    @Test
    void testOfWelchOnThePublishedCars() {
        // NIST/SEMATECH e-Handbook 1.3.5.3, miles per gallon of 249 and 79 cars (from memory): without equal variances
        // T = -12.94627 with 136.8750 degrees of freedom; SciPy 1.17.1 ttest_ind_from_stats gives -12.9462676
        Difference difference = Difference.of(readings(79, 30.48101, 6.10771), readings(249, 20.14458, 6.41470), true);
        assertThat(difference.t()).isCloseTo(-12.94627, within(5e-6));
        assertThat(difference.freedom()).isCloseTo(136.875, within(5e-4));
        assertThat(difference.p()).isCloseTo(1.5709e-25, within(1e-28));
    }

    @Test
    void smallSamplesAgreeWithSciPy() {
        // SciPy 1.17.1: stats.ttest_ind([.12, .15, .11, .14, .13], [.20, .26, .17, .23], equal_var=False) gives
        // -4.123105625617661, p 0.016163014903048, 3.80263157894737 degrees of freedom, interval of the first less the
        // second -0.14342877050042657 to -0.026571229499573426
        Difference difference =
                Difference.of(readings(4, 0.215, 0.03872983346207417), readings(5, 0.13, 0.0158113883008419), true);
        assertThat(difference.t()).isCloseTo(-4.123105625617661, within(1e-12));
        assertThat(difference.p()).isCloseTo(0.016163014903048, within(1e-12));
        assertThat(difference.freedom()).isCloseTo(3.80263157894737, within(1e-11));
        assertThat(difference.interval().low()).isCloseTo(-0.14342877050042657, within(1e-11));
        assertThat(difference.interval().high()).isCloseTo(-0.026571229499573426, within(1e-11));
    }

    @Test
    void sharedReferenceCancelsAndOthersEnterTwice() {
        Level one = level(0.001, 3e-5, 10, 4e-4, 0);
        Level two = level(0.002, 4e-5, 10, 4e-4, 0);
        // hypot(3, 4) = 5 in units of 1e-5
        assertThat(Difference.of(one, two, true).standardUncertainty()).isCloseTo(5e-5, within(1e-18));
        assertThat(Difference.of(one, two, false).standardUncertainty())
                .isCloseTo(Math.sqrt(25e-10 + 2 * 16e-8), within(1e-18));
    }

    @Test
    void whatEachHasOfItsOwnStays() {
        Level one = level(0.001, 0.0, 10, null, 3e-5);
        Level two = level(0.002, 0.0, 10, null, 4e-5);
        Difference difference = Difference.of(one, two, true);
        assertThat(difference.standardUncertainty()).isCloseTo(5e-5, within(1e-18));
        assertThat(difference.freedom()).isInfinite();
        // normal distribution, 97.5 %: 1.959964 (tables)
        assertThat(difference.interval().high()).isCloseTo(0.001 + 1.959964 * 5e-5, within(1e-10));
        assertThat(difference.notes()).isEmpty();
        assertThat(Difference.of(one, two, false).notes()).containsExactly(Caution.REFERENCE_UNKNOWN);
    }

    @Test
    void withoutRepeatsNothingIsTested() {
        Difference difference = Difference.of(level(0.001, null, 1, 0.0, 0), readings(5, 0.002, 1e-4), true);
        assertThat(difference.difference()).isEqualTo(0.001);
        assertThat(difference.p()).isNull();
        assertThat(difference.interval()).isNull();
        assertThat(difference.significant()).isFalse();
        assertThat(difference.notes()).containsExactly(Caution.NO_REPEATS);
    }

    @Test
    void equalReadingsOnBothSidesHaveAnIntervalOfNoWidthAndNoTest() {
        Difference difference = Difference.of(level(0.001, 0.0, 4, 0.0, 0), level(0.002, 0.0, 4, 0.0, 0), true);
        assertThat(difference.interval().low()).isEqualTo(difference.interval().high());
        assertThat(difference.p()).isNull();
    }

    @Test
    void unlikeDrivesAreNamed() {
        Level one = level(0.001, 1e-5, 4, 0.0, 0);
        Level two = new Level(50, null, Direction.BOTH, 250, 6, 0.001, 1e-5, 4, 0.0, 0, true);
        assertThat(Difference.of(one, two, true).notes())
                .containsExactlyInAnyOrder(
                        Caution.OTHER_ACCELERATION, Caution.OTHER_LENGTH, Caution.OTHER_DIRECTION, Caution.POOLED);
    }

    @Test
    void aSharedReferenceWeighsMoreOverTheShorterLength() {
        // 0.1 mm, one and the same error: 2e-4 of 500 mm and 1e-4 of 1000 mm, so that 1e-4 is left of it
        Level shorter = level(0.001, 3e-5, 10, 2e-4, 0);
        Level longer = level(0.002, 4e-5, 10, 1e-4, 0);
        assertThat(Difference.of(shorter, longer, true).standardUncertainty())
                .isCloseTo(Math.sqrt(25e-10 + 1e-8), within(1e-18));
    }
}
