package slowproof.metrology;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import org.junit.jupiter.api.Test;

class CheckTest {

    @Test
    void goodValuesPassThrough() {
        assertThat(Check.finite(-3, "x")).isEqualTo(-3);
        assertThat(Check.notNegative(0, "x")).isZero();
        assertThat(Check.notNegative(2, "x")).isEqualTo(2);
        assertThat(Check.positive(1e-300, "x")).isEqualTo(1e-300);
        assertThat(Check.degreesOfFreedom(Double.POSITIVE_INFINITY)).isInfinite();
        assertThat(Check.openProbability(0.95, "p")).isEqualTo(0.95);
        double[] values = {1, 2};
        assertThat(Check.allFinite(values, "x")).isSameAs(values);
    }

    @Test
    void badValuesAreRefusedWithTheirNameAndValue() {
        for (double bad : new double[] {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY}) {
            assertThatIllegalArgumentException().isThrownBy(() -> Check.finite(bad, "width"));
            assertThatIllegalArgumentException().isThrownBy(() -> Check.notNegative(bad, "width"));
            assertThatIllegalArgumentException().isThrownBy(() -> Check.positive(bad, "width"));
            assertThatIllegalArgumentException().isThrownBy(() -> Check.openProbability(bad, "width"));
            assertThatIllegalArgumentException().isThrownBy(() -> Check.allFinite(new double[] {1, bad}, "width"));
        }
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Check.notNegative(-1, "width"))
                .withMessage("width must be a finite number of at least 0: -1.0");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Check.positive(0, "width"))
                .withMessageContaining("width")
                .withMessageContaining("0.0");
        assertThatIllegalArgumentException().isThrownBy(() -> Check.degreesOfFreedom(0));
        assertThatIllegalArgumentException().isThrownBy(() -> Check.degreesOfFreedom(Double.NaN));
        assertThatIllegalArgumentException().isThrownBy(() -> Check.openProbability(0, "p"));
        assertThatIllegalArgumentException().isThrownBy(() -> Check.openProbability(1, "p"));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Check.openProbability(95, "coverage probability"))
                .withMessage("coverage probability must lie between 0 and 1: 95.0; for 95 % give 0.95");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Check.allFinite(new double[] {1, Double.NaN}, "readings"))
                .withMessage("readings must be finite: number 2 is NaN");
    }
}
