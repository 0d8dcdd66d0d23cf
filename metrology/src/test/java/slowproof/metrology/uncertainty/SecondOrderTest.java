package slowproof.metrology.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class SecondOrderTest {

    private static final List<Input> INPUTS =
            List.of(Input.of("a", Normal.of(2, 0.1)), Input.of("b", Normal.of(3, 0.2)));

    @Test
    void productOfTwoNormalsIsExact() {
        // variance b^2 u_a^2 + a^2 u_b^2 + u_a^2 u_b^2
        SecondOrder result = SecondOrder.of(UncertaintyModel.of(INPUTS, x -> x[0] * x[1]));
        assertThat(result.firstOrder()).isCloseTo(0.5, within(1e-10));
        assertThat(result.standardUncertainty()).isCloseTo(Math.sqrt(0.09 + 0.16 + 0.0004), within(1e-10));
        assertThat(result.estimate()).isEqualTo(6);
        assertThat(result.terms()).hasSize(3);
        assertThat(result.terms().get(1).first()).isEqualTo("a");
        assertThat(result.terms().get(1).second()).isEqualTo("b");
        assertThat(result.terms().get(1).variance()).isCloseTo(0.0004, within(1e-10));
        assertThat(result.terms().get(0).variance()).isCloseTo(0, within(1e-10));
        double half = 1.959963984540054 * result.standardUncertainty();
        assertThat(result.interval(0.95).low()).isCloseTo(6 - half, within(1e-9));
        assertThat(result.interval(0.95).high()).isCloseTo(6 + half, within(1e-9));
        assertThatIllegalArgumentException().isThrownBy(() -> result.interval(95));
    }

    @Test
    void termsFollowTheFormulaOfTheGuide() {
        // f = a^3 b^2: f_a = 3 a^2 b^2 = 108, f_b = 2 a^3 b = 48, f_aa = 6 a b^2 = 108, f_bb = 2 a^3 = 16,
        // f_ab = 6 a^2 b = 72, f_aaa = 6 b^2 = 54, f_abb = 6 a^2 = 24, f_baa = 12 a b = 72, f_bbb = 0
        SecondOrder result = SecondOrder.of(UncertaintyModel.of(INPUTS, x -> x[0] * x[0] * x[0] * x[1] * x[1]));
        double aa = (108.0 * 108 / 2 + 108 * 54) * 0.1 * 0.1 * 0.1 * 0.1;
        double bb = (16.0 * 16 / 2) * 0.2 * 0.2 * 0.2 * 0.2;
        double ab = (72.0 * 72 + 108 * 24 + 48 * 72) * 0.1 * 0.1 * 0.2 * 0.2;
        assertThat(result.firstOrder()).isCloseTo(Math.hypot(10.8, 9.6), within(1e-9));
        assertThat(result.terms().get(0).variance()).isCloseTo(aa, within(1e-8));
        assertThat(result.terms().get(1).variance()).isCloseTo(ab, within(1e-8));
        assertThat(result.terms().get(2).variance()).isCloseTo(bb, within(1e-8));
        assertThat(result.standardUncertainty())
                .isCloseTo(Math.sqrt(10.8 * 10.8 + 9.6 * 9.6 + aa + ab + bb), within(1e-9));
    }

    @Test
    void smoothFunctionsAreDifferentiatedAccurately() {
        // f = exp(a): all derivatives e^2; variance e^4 (u^2 + 1.5 u^4) against the exact lognormal one
        SecondOrder result = SecondOrder.of(UncertaintyModel.of(INPUTS, x -> Math.exp(x[0])));
        double e4 = Math.exp(4);
        assertThat(result.standardUncertainty()).isCloseTo(Math.sqrt(e4 * (0.01 + 1.5e-4)), within(1e-6));
    }

    @Test
    void aSquareAtZeroIsSeen() {
        List<Input> at0 = List.of(Input.of("a", Normal.of(0, 0.1)));
        SecondOrder result = SecondOrder.of(UncertaintyModel.of(at0, x -> x[0] * x[0]));
        // the variance of a squared normal quantity is 2 u^4
        assertThat(result.standardUncertainty()).isCloseTo(Math.sqrt(2) * 0.01, within(1e-10));
    }

    @Test
    void higherOrderCanReduceTheUncertainty() {
        // f = sin a at 0: u^2 - u^4 in this order
        List<Input> at0 = List.of(Input.of("a", Normal.of(0, 0.1)));
        SecondOrder result = SecondOrder.of(UncertaintyModel.of(at0, x -> Math.sin(x[0])));
        assertThat(result.standardUncertainty()).isCloseTo(Math.sqrt(0.01 - 0.0001), within(1e-6));
    }

    @Test
    void correlatedInputsAndBrokenModelsAreRefused() {
        UncertaintyModel model = UncertaintyModel.of(INPUTS, x -> x[0] * x[1]).withCorrelation("a", "b", 0.1);
        assertThatIllegalArgumentException().isThrownBy(() -> SecondOrder.of(model));
        UncertaintyModel broken = UncertaintyModel.of(INPUTS, x -> x[0] > 2.04 ? Double.NaN : x[0])
                .withSensitivities(1, 0);
        assertThatExceptionOfType(ArithmeticException.class).isThrownBy(() -> SecondOrder.of(broken));
    }
}
