package slowproof.archive.typed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import slowproof.archive.typed.NotUnderstoodException.Why;

class TypedTest {
    private static Typed dot(String text) {
        return new Typed(text, DecimalMark.DOT, LengthUnit.MM, SpeedUnit.MM_PER_S);
    }

    private static Typed comma(String text) {
        return new Typed(text, DecimalMark.COMMA, LengthUnit.MM, SpeedUnit.MM_PER_S);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "600.6|600.6|1",
                "600,6|600.6|1",
                "+600.6 mm|600.6|1",
                "−0.30|-0.30|2",
                "1 200.5|1200.5|1",
                "1,200.5|1200.5|1",
                "0.6006 m|600.6|1",
                "60.06cm|600.6|1",
                "23.5 in|596.90|2",
                "23.5\"|596.90|2",
                "600|600|0",
                "600.|600|0",
                ".5|0.5|1",
            })
    void lengthIsUnderstoodAsTyped(String text, double mm, int decimals) throws NotUnderstoodException {
        Length length = dot(text).length();
        assertThat(length.mm()).isEqualTo(mm);
        assertThat(length.decimals()).isEqualTo(decimals);
        assertThat(length.widthMm()).isZero();
    }

    @ParameterizedTest
    @CsvSource({"600.2-600.4", "600.2 – 600.4", "600.2..600.4", "600.2 to 600.4", "600.4-600.2 mm", "600.2 bis 600.4"})
    void rangeOfAFlickeringDisplayMeansItsMiddle(String text) throws NotUnderstoodException {
        Length length = dot(text).length();
        assertThat(length.mm()).isEqualTo(600.3);
        assertThat(length.widthMm()).isCloseTo(0.2, within(1e-12));
    }

    @Test
    void rangeMayBeNegative() throws NotUnderstoodException {
        assertThat(dot("-0.3--0.1").length().mm()).isEqualTo(-0.2);
    }

    @Test
    void commaReadsAsCommaWhereItIsTheHabit() throws NotUnderstoodException {
        assertThat(comma("1.200,5").length().mm()).isEqualTo(1200.5);
        assertThat(comma("1,200").length().mm()).isEqualTo(1.2);
        assertThat(comma("600,2-600,4").length().mm()).isEqualTo(600.3);
    }

    @Test
    void aMarkThatCouldGroupThousandsIsAskedAbout() {
        refused(dot("1,200"), Why.AMBIGUOUS_MARK);
        refused(comma("1.200"), Why.AMBIGUOUS_MARK);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {"six", "6oo.6", "600.6.1", "1,2,3", "--3", "600 6 mm mm x 3", "'-'", "1e3"})
    void whatIsNoLengthIsRefused(String text) {
        assertThatThrownBy(() -> dot(text).length()).isInstanceOf(NotUnderstoodException.class);
    }

    @Test
    void reasonOfARefusalIsNamed() {
        refused(dot("  "), Why.EMPTY);
        refused(dot("600.6 m/min"), Why.UNKNOWN_UNIT);
        refused(dot("1000000000"), Why.TOO_LARGE);
        refused(dot("9".repeat(100)), Why.NOT_A_NUMBER);
    }

    @Test
    void speedComesInMillimetresPerSecond() throws NotUnderstoodException {
        assertThat(dot("3 m/min").speedMmPerS()).isEqualTo(50);
        assertThat(dot("10 ft/min").speedMmPerS()).isEqualTo(50.8);
        assertThat(new Typed("1.5", DecimalMark.DOT, LengthUnit.MM, SpeedUnit.M_PER_MIN).speedMmPerS())
                .isEqualTo(25);
    }

    @Test
    void speedOfZeroOrARangeIsRefused() {
        assertThatThrownBy(() -> dot("0").speedMmPerS())
                .isInstanceOfSatisfying(
                        NotUnderstoodException.class, e -> assertThat(e.why()).isEqualTo(Why.NOT_POSITIVE));
        assertThatThrownBy(() -> dot("40-50").speedMmPerS()).isInstanceOf(NotUnderstoodException.class);
    }

    private static void refused(Typed typed, Why why) {
        assertThatThrownBy(typed::length)
                .isInstanceOfSatisfying(
                        NotUnderstoodException.class, e -> assertThat(e.why()).isEqualTo(why));
    }
}
