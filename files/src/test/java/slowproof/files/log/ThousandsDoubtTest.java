package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ThousandsDoubtTest {
    private static ThousandsDoubt of(char sign, String cells) {
        ThousandsDoubt doubt = new ThousandsDoubt(sign);
        long line = 2;
        for (String cell : cells.split(" ")) {
            doubt.see(cell, line++);
        }
        return doubt;
    }

    @ParameterizedTest
    @ValueSource(strings = {"0 900 1.800", "999 1.005 x", "-1 -12.400", "1 100.000 999", "7 +1.000 \u22121.000"})
    void mayBeReadInTwoWays(String cells) {
        assertThat(of('.', cells).any()).isTrue();
        assertThat(of(',', cells.replace('.', ',')).any()).isTrue();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "0 1.800",
                "900 901",
                "1.800 1.900",
                "900 1.800 0.512",
                "900 1.800 1.25",
                "900 1.800 1234",
                "5 1.800 1234.567",
                "5 1.800 -0.001",
                "5 1.800 1.5E3",
                "5 1.800 1.",
                "5 1.800 .512",
                "0 0.100"
            })
    void isToldOrDoesNotMatter(String cells) {
        assertThat(of('.', cells).any()).isFalse();
        assertThat(of(',', cells.replace('.', ',')).any()).isFalse();
    }

    @Test
    void theFirstSuchCellIsNamedAndADoubtByZerosAloneIsApart() {
        ThousandsDoubt doubt = of('.', "0 1.200 0 1.201");
        assertThat(doubt.any()).isFalse();
        assertThat(doubt.onlyByZeros()).isTrue();
        assertThat(of('.', "0 1.200 7").onlyByZeros()).isFalse();
        assertThat(doubt.cell()).isEqualTo("1.200");
        assertThat(doubt.line()).isEqualTo(3);
    }
}
