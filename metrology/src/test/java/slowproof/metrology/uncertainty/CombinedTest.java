package slowproof.metrology.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class CombinedTest {

    private static final double INFINITE = Double.POSITIVE_INFINITY;

    @Test
    void threeInputProductOfTheGuide() {
        // JCGM 100:2008 G.4.1, printed values from memory: u 1.03 %, nu 19.0, t 2.09, U 2.2 %
        Combined combined = Combined.of(
                List.of(new Component("x1", 0.25, 9), new Component("x2", 0.57, 4), new Component("x3", 0.82, 14)));
        assertThat(combined.standardUncertainty()).isCloseTo(1.03, within(0.005));
        assertThat(combined.effectiveDegreesOfFreedom()).isCloseTo(19.0, within(0.06));
        assertThat(combined.coverageFactor(0.95)).isCloseTo(2.09, within(0.005));
        assertThat(combined.expandedUncertainty(0.95)).isCloseTo(2.2, within(0.05));
    }

    @Test
    void degreesOfFreedomAreNotTruncated() {
        // arithmetic of the formula, recomputed with numpy and scipy
        Combined combined = Combined.of(List.of(
                new Component("a", 3, 9),
                new Component("b", 2, 4),
                new Component("c", 1.5, 50),
                new Component("d", 0.8, INFINITE)));
        assertThat(combined.standardUncertainty()).isCloseTo(3.9862262855989496, within(1e-12));
        assertThat(combined.effectiveDegreesOfFreedom()).isCloseTo(19.272367140540023, within(1e-11));
        assertThat(combined.coverageFactor(0.95)).isCloseTo(2.0910238160024903, within(1e-9));
    }

    @Test
    void withoutAComponentOfFiniteDegreesOfFreedomTheyAreInfinite() {
        Combined combined =
                Combined.of(List.of(new Component("certificate", 2, INFINITE), new Component("no scatter seen", 0, 3)));
        assertThat(combined.effectiveDegreesOfFreedom()).isEqualTo(INFINITE);
        assertThat(combined.coverageFactor(0.9545)).isCloseTo(2.0000024, within(1e-6));
    }

    @Test
    void oneComponentKeepsItsDegreesOfFreedom() {
        Combined combined = Combined.of(List.of(new Component("scatter", 0.3, 4.5)));
        assertThat(combined.standardUncertainty()).isEqualTo(0.3);
        assertThat(combined.effectiveDegreesOfFreedom()).isCloseTo(4.5, within(1e-14));
    }

    @Test
    void nothingUncertainGivesZeroAndNoShares() {
        Combined combined = Combined.of(List.of(new Component("a", 0, 3), new Component("b", 0, INFINITE)));
        assertThat(combined.standardUncertainty()).isZero();
        assertThat(combined.expandedUncertainty(0.95)).isZero();
        assertThat(combined.effectiveDegreesOfFreedom()).isEqualTo(INFINITE);
        assertThat(combined.sharePercent(0)).isZero();
        assertThat(combined.sharePercent(1)).isZero();
    }

    @Test
    void sharesAddUpToAHundred() {
        Combined combined =
                Combined.of(List.of(new Component("a", 3, 5), new Component("b", 4, 5), new Component("c", 0, 5)));
        assertThat(combined.sharePercent(0)).isCloseTo(36, within(1e-12));
        assertThat(combined.sharePercent(1)).isCloseTo(64, within(1e-12));
        assertThat(combined.sharePercent(2)).isZero();
        assertThatExceptionOfType(IndexOutOfBoundsException.class).isThrownBy(() -> combined.sharePercent(3));
    }

    @Test
    void tinyAndHugeUncertaintiesAreCombinedToo() {
        for (double scale : new double[] {1e-200, 1e200}) {
            Combined combined =
                    Combined.of(List.of(new Component("a", 3 * scale, 5), new Component("b", 4 * scale, 8)));
            assertThat(combined.standardUncertainty()).isCloseTo(5 * scale, within(1e-14 * 5 * scale));
            assertThat(combined.effectiveDegreesOfFreedom()).isCloseTo(625 / (81.0 / 5 + 256.0 / 8), within(1e-12));
            assertThat(combined.sharePercent(0)).isCloseTo(36, within(1e-12));
        }
    }

    @Test
    void badComponentsAreRefused() {
        assertThatIllegalArgumentException().isThrownBy(() -> new Component(" ", 1, 1));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Component("reference", -1, 1))
                .withMessageContaining("reference");
        assertThatIllegalArgumentException().isThrownBy(() -> new Component("reference", 1, 0));
        assertThatIllegalArgumentException().isThrownBy(() -> Combined.of(List.of()));
        Combined combined = Combined.of(List.of(new Component("a", 1, 1)));
        assertThatIllegalArgumentException().isThrownBy(() -> combined.coverageFactor(95));
        assertThatIllegalArgumentException().isThrownBy(() -> combined.expandedUncertainty(0));
    }
}
