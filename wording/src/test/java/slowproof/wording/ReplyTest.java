package slowproof.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import slowproof.metrology.conformity.DecisionRule;

/** Golden texts of invented trials: whoever changes a sentence reads it here once more. */
class ReplyTest {
    private static final String VALID_FOR =
            " This holds for the tested unit, surface and set-up at the tested speeds; it is no accredited calibration.";

    private static String english(Bench bench) {
        return Reply.of(bench.findings(), Wording.of(Locale.ENGLISH));
    }

    private static Bench felt(double... errorsMm) {
        return new Bench().passes("felt-250", "acoustic felt", 250, errorsMm);
    }

    @Test
    void singlePassLeadsWhereTheMeanGetsAnotherAnswer() {
        assertThat(english(Bench.twoSurfaces()))
                .isEqualTo(
                        "On acoustic felt, a single pass holds the limit at 250 mm/s and is undecided at 63 mm/s; the"
                                + " mean error alone holds the limit at 63 mm/s. At 63 mm/s the error was +0.1442 \u00b1 0.0087 %"
                                + " (+1.081 mm on 750 mm; mean of 8 passes, k = 2.07), the limit is \u00b10.1567 %; probability to"
                                + " lie inside: single pass 93 %, mean 99.4 %. On clear film, the sensor holds the limit at 250"
                                + " mm/s and fails at 63 mm/s (error \u22120.5675 %); nothing was tested between. At 250 mm/s the"
                                + " error was \u22120.0342 \u00b1 0.0070 % (\u22120.256 mm on 750 mm; mean of 8 passes, k = 2.01),"
                                + " the limit is \u00b10.1567 %; probability to lie inside: single pass > 99.9 %, mean > 99.9 %."
                                + VALID_FOR);
    }

    @Test
    void germanSaysTheSame() {
        assertThat(Reply.of(Bench.twoSurfaces().findings(), Wording.of(Locale.GERMAN)))
                .isEqualTo(
                        "Auf acoustic felt ist die Grenze f\u00fcr einen einzelnen Durchgang bei 250 mm/s eingehalten,"
                                + " bei 63 mm/s unentschieden; f\u00fcr die mittlere Abweichung allein ist sie bei 63 mm/s"
                                + " eingehalten. Bei 63 mm/s war die Abweichung +0,1442 \u00b1 0,0087 % (+1,081 mm auf 750 mm;"
                                + " Mittel aus 8 Durchg\u00e4ngen, k = 2,07), die Grenze ist \u00b10,1567 %; Wahrscheinlichkeit,"
                                + " innerhalb zu liegen: einzelner Durchgang 93 %, Mittelwert 99,4 %. Auf clear film h\u00e4lt der"
                                + " Sensor die Grenze bei 250 mm/s ein und verfehlt sie bei 63 mm/s (Abweichung \u22120,5675 %);"
                                + " dazwischen wurde nichts gepr\u00fcft. Bei 250 mm/s war die Abweichung \u22120,0342 \u00b1 0,0070 %"
                                + " (\u22120,256 mm auf 750 mm; Mittel aus 8 Durchg\u00e4ngen, k = 2,01), die Grenze ist"
                                + " \u00b10,1567 %; Wahrscheinlichkeit, innerhalb zu liegen: einzelner Durchgang > 99,9 %,"
                                + " Mittelwert > 99,9 %. Das gilt f\u00fcr das gepr\u00fcfte Ger\u00e4t, die gepr\u00fcfte"
                                + " Oberfl\u00e4che und den Aufbau bei den gepr\u00fcften Geschwindigkeiten; es ist keine"
                                + " akkreditierte Kalibrierung.");
    }

    @Test
    void conformingTrialNamesTheSpeedAndHowWellTheScatterIsKnown() {
        assertThat(english(felt(0.10, 0.15, 0.15, 0.10)))
                .isEqualTo(
                        "On acoustic felt, the sensor holds the limit at 250 mm/s, the only speed tested. At 250 mm/s"
                                + " the error was +0.0167 \u00b1 0.0086 % (+0.125 mm on 750 mm; mean of 4 passes, k = 2.16), the"
                                + " limit is \u00b10.1567 %; probability to lie inside: single pass > 99.9 %, mean > 99.9 %; with 4"
                                + " passes the scatter is known only roughly."
                                + VALID_FOR);
    }

    @Test
    void failingTrialSaysSo() {
        assertThat(english(felt(4.10, 4.15, 4.20, 4.10, 4.15, 4.15, 4.10, 4.20, 4.15, 4.15)))
                .isEqualTo("On acoustic felt, the sensor does not hold the limit at any tested speed (250 mm/s). At 250"
                        + " mm/s the error was +0.5527 \u00b1 0.0073 % (+4.145 mm on 750 mm; mean of 10 passes, k = 2.01),"
                        + " the limit is \u00b10.1567 %; probability to lie inside: single pass < 0.1 %, mean < 0.1 %."
                        + VALID_FOR);
    }

    @Test
    void onePassIsUndecidedBecauseTheScatterIsUnknown() {
        assertThat(english(felt(0.10)))
                .isEqualTo("On acoustic felt, the sensor is undecided at 250 mm/s. At 250 mm/s the error was +0.0133"
                        + " \u00b1 0.0065 % (+0.100 mm on 750 mm; one pass only, k = 2.00), the limit is \u00b10.1567 %;"
                        + " nothing was repeated, so the scatter is unknown."
                        + VALID_FOR);
    }

    @Test
    void unknownReferenceGivesAScreeningOnly() {
        assertThat(english(felt(0.10, 0.15)
                        .passes("felt-63", "acoustic felt", 63, 1.1)
                        .unknownReference()))
                .isEqualTo("Screening only, no decision: the uncertainty of the reference is unknown. On acoustic felt"
                        + " the error was +0.0167 % at 250 mm/s (2 passes), +0.1467 % at 63 mm/s (1 pass); the limit is"
                        + " \u00b10.1567 %."
                        + VALID_FOR);
    }

    @Test
    void trialWithoutALimitIsAScreeningToo() {
        assertThat(english(felt(0.10, 0.15).noLimit()))
                .startsWith("Screening only, no decision: no limit was stated. On acoustic felt the error was +0.0167 %"
                        + " at 250 mm/s (2 passes). This holds");
    }

    @Test
    void referenceTooCoarseIsNamedAsTheCause() {
        assertThat(english(felt(0.10, 0.15, 0.10, 0.15, 0.10).coarseReference()))
                .contains("the sensor is undecided at 250 mm/s.")
                .contains("the reference is too coarse for this limit");
    }

    @Test
    void speedsBetweenHoldingAndFailingAreNamed() {
        Bench ladder = felt(0.10, 0.10, 0.15, 0.10)
                .passes("felt-63", "acoustic felt", 63, 0.1, 0.1, 0.15)
                .passes("felt-35", "acoustic felt", 35, 1.2, 1.2, 1.25)
                .passes("felt-20", "acoustic felt", 20, 9.5, 9.5, 9.55);
        assertThat(english(ladder))
                .startsWith("On acoustic felt, the sensor holds the limit at 63 to 250 mm/s and fails at 20 mm/s (error"
                        + " +1.2683 %); between them it is undecided at 35 mm/s. At 35 mm/s the error was ");
    }

    @Test
    void exclusionsAreNamedWithTheirEffect() {
        assertThat(english(Bench.twoSurfaces().excluding("felt-63/2", "cable caught")))
                .contains(" 1 pass was left out for a stated reason; with it 1 condition would get another answer.");
        assertThat(english(Bench.twoSurfaces().excluding("film-63/2", "cable caught")))
                .contains(" 1 pass was left out for a stated reason; with it the answers stay the same.");
    }

    @Test
    void simpleAcceptanceIsNamed() {
        assertThat(english(felt(0.10, 0.15).rule(DecisionRule.SIMPLE)))
                .contains("Decided by simple acceptance: the figure alone is compared with the limit");
    }
}
