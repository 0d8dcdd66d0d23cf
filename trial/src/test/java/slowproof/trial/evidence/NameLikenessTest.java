package slowproof.trial.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class NameLikenessTest {
    @Test
    void pairsOfLettersGiveTheCoefficientOfTheTextbookExample() {
        // the usual example for this coefficient on words: ni ig gh ht, na ac ch ht, one shared of 4 + 4
        assertThat(NameLikeness.of("night", "nacht")).isEqualTo(0.25);
    }

    @Test
    void orderOfWordsCaseAccentsAndPunctuationDoNotCount() {
        assertThat(NameLikeness.of("Acoustic felt", "felt, acoustic")).isEqualTo(1);
        assertThat(NameLikeness.of("Filz, wei\u00df", "FILZ weiss")).isEqualTo(1);
        assertThat(NameLikeness.of("v\u00e9lin", "velin")).isEqualTo(1);
    }

    @Test
    void aWordMoreLowersTheLikenessByItsPairs() {
        // felt: fe el lt; grey: gr re ey; counted by hand: 2 * 3 / (3 + 6)
        assertThat(NameLikeness.of("felt", "felt grey")).isCloseTo(2.0 / 3, within(1e-15));
    }

    @Test
    void nothingInCommonIsNothingAndNoNameIsLikeNoName() {
        assertThat(NameLikeness.of("felt", "papier")).isZero();
        assertThat(NameLikeness.of("", "")).isZero();
        assertThat(NameLikeness.of("felt", "")).isZero();
    }

    @Test
    void likenessIsTheSameBothWays() {
        assertThat(NameLikeness.of("glass fabric, aluminium-faced", "aluminium foil"))
                .isEqualTo(NameLikeness.of("aluminium foil", "glass fabric, aluminium-faced"))
                .isBetween(0.3, 0.7);
    }

    @Test
    void letterAloneCountsAsAPairOfItsOwn() {
        assertThat(NameLikeness.of("film A", "film B")).isEqualTo(0.75);
    }
}
