package slowproof.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.junit.jupiter.api.Test;

class NumbersTest {
    private static final Numbers ENGLISH = Numbers.of(Locale.ENGLISH);
    private static final Numbers GERMAN = Numbers.of(Locale.GERMAN);

    @Test
    void uncertaintyIsShownWithTwoSignificantDigits() {
        assertThat(Numbers.decimalsFor(0.0095723)).isEqualTo(4);
        assertThat(Numbers.decimalsFor(0.5)).isEqualTo(2);
        assertThat(Numbers.decimalsFor(1.23)).isEqualTo(1);
        assertThat(Numbers.decimalsFor(12.3)).isZero();
        assertThat(Numbers.decimalsFor(123)).isEqualTo(-1);
    }

    @Test
    void uncertaintyThatRoundsUpToTheNextPowerOfTenKeepsTwoDigits() {
        assertThat(Numbers.decimalsFor(0.00996)).isEqualTo(3);
        assertThat(ENGLISH.fixed(0.00996, 3)).isEqualTo("0.010");
        assertThat(Numbers.decimalsFor(99.6)).isEqualTo(-1);
        assertThat(ENGLISH.fixed(99.6, -1)).isEqualTo("100");
    }

    @Test
    void halvesAreRoundedToTheEvenDigit() {
        // examples of ISO 80000-1:2009, B.3 (from memory): 12.25 to 12.2, 12.35 to 12.4, 1225.0 to 1220, 1235.0 to 1240
        assertThat(ENGLISH.fixed(12.25, 1)).isEqualTo("12.2");
        assertThat(ENGLISH.fixed(12.35, 1)).isEqualTo("12.4");
        assertThat(ENGLISH.fixed(1225.0, -1)).isEqualTo("1220");
        assertThat(ENGLISH.fixed(1235.0, -1)).isEqualTo("1240");
        assertThat(ENGLISH.fixed(12.223, 1)).isEqualTo("12.2");
        assertThat(ENGLISH.fixed(12.275, 1)).isEqualTo("12.3");
    }

    @Test
    void valueThatRoundsToZeroHasNoSign() {
        assertThat(ENGLISH.fixed(-0.0004, 3)).isEqualTo("0.000");
        assertThat(ENGLISH.fixed(-0.0, 1)).isEqualTo("0.0");
        assertThat(ENGLISH.signed(0.0004, 3)).isEqualTo("0.000");
        assertThat(ENGLISH.plain(-0.0)).isEqualTo("0");
    }

    @Test
    void negativeNumbersHaveTheTrueMinusSign() {
        assertThat(ENGLISH.fixed(-0.036, 3)).isEqualTo("\u22120.036");
        assertThat(ENGLISH.whole(-3)).isEqualTo("\u22123");
        assertThat(ENGLISH.signed(0.145, 3)).isEqualTo("+0.145");
    }

    @Test
    void germanHasTheDecimalComma() {
        assertThat(GERMAN.fixed(0.1449, 4)).isEqualTo("0,1449");
        assertThat(GERMAN.plain(12.507)).isEqualTo("12,51");
    }

    @Test
    void plainNumbersKeepFourDigitsAndAllDigitsBeforeTheSign() {
        assertThat(ENGLISH.plain(12345.6)).isEqualTo("12346");
        assertThat(ENGLISH.plain(0.000123456)).isEqualTo("0.0001235");
        assertThat(ENGLISH.plain(250)).isEqualTo("250");
        assertThat(ENGLISH.plain(Double.POSITIVE_INFINITY)).isEqualTo("\u221e");
    }

    @Test
    void probabilityNeverShowsTheThresholdThatItMisses() {
        assertThat(ENGLISH.probabilityPercent(0.94999)).isEqualTo("94.9");
        assertThat(ENGLISH.probabilityPercent(0.95)).isEqualTo("95.0");
        assertThat(ENGLISH.probabilityPercent(0.0500001)).isEqualTo("5.1");
        assertThat(ENGLISH.probabilityPercent(0.80)).isEqualTo("80");
        assertThat(ENGLISH.probabilityPercent(0.9999999)).isEqualTo("> 99.9");
        assertThat(ENGLISH.probabilityPercent(0)).isEqualTo("< 0.1");
    }
}
