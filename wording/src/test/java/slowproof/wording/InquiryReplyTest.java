package slowproof.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import slowproof.trial.evidence.Assessment;
import slowproof.trial.evidence.Evidence;
import slowproof.trial.evidence.Evidence.Point;
import slowproof.trial.evidence.Inquiry;
import slowproof.trial.evidence.Steps;

class InquiryReplyTest {
    private static final Wording ENGLISH = Wording.of(Locale.ENGLISH).withPages();
    private static final Wording GERMAN = Wording.of(Locale.GERMAN).withPages();
    private static final Inquiry FELT = new Inquiry("felt", 25, 100.0, 500.0, null, 1000, 1);

    private static Evidence evidence(String material, double slowest, double errorThere) {
        return new Evidence(
                material,
                slowest,
                100,
                500.0,
                500.0,
                900,
                900,
                true,
                List.of(
                        new Point(slowest, errorThere, 0.0001, 0.0002, Double.POSITIVE_INFINITY, 6, 0.00002),
                        new Point(100, 0.0, 0.0001, 0.0002, Double.POSITIVE_INFINITY, 6, 0.00002)));
    }

    private static String reply(Inquiry inquiry, Evidence evidence, Wording wording) {
        Assessment said = Assessment.of(inquiry, evidence);
        return InquiryReply.of(said, inquiry, "Cutter", "2 Mar 2026", said.steps(), wording);
    }

    @Test
    void whatHoldsIsSaidWithItsFigures() {
        // 0.0004 of 1000 mm is 0.4 mm; (0.001 - 0.0004)/0.0002 = 3 sigma: 99.865 %, cut down to the undecided side
        assertThat(reply(FELT, evidence("felt", 25, 0.0004), ENGLISH))
                .isEqualTo("You asked whether the sensor keeps ±1 mm on a length of 1000 mm on felt, from 25 mm/s to"
                        + " 100 mm/s. Yes, by our trial “Cutter” of 2 Mar 2026: every tested speed that bears on it keeps"
                        + " that share of the length (tested: 25 to 100 mm/s). The least sure tested speed that bears on it is 25"
                        + " mm/s: the mean error is +0.040 % ± 0.010 % (95 %), +0.40 mm on 1000 mm, and a single piece keeps the"
                        + " tolerance with a probability of 99.8\u00a0%. This holds for the tested unit, surface and set-up at"
                        + " the tested speeds; it is no accredited calibration.");
    }

    @Test
    void germanSaysTheSame() {
        assertThat(reply(FELT, evidence("felt", 25, 0.004), GERMAN))
                .startsWith(
                        "Gefragt war, ob der Sensor ±1 mm auf einer Länge von 1000 mm auf felt einhält, von 25 mm/s bis"
                                + " 100 mm/s. Nein, nach unserem Versuch „Cutter“")
                .contains("+0,400 % ± 0,010 % (95 %), +4,00 mm auf 1000 mm")
                .contains("Als Nächstes würden wir bei 50 mm/s prüfen");
    }

    @Test
    void whatIsNotCoveredIsNamed() {
        String reply = reply(FELT, evidence("film", 40, 0.0), ENGLISH);
        assertThat(reply)
                .contains("We have not tested that.")
                .contains("The surface tested was film (names alike to")
                .contains("25 mm/s was not tested; the slowest speed tested is 40 mm/s.")
                .contains("We would test next at 25, 40, 63 and 100 mm/s");
    }

    @Test
    void withoutAnyTrialALadderIsOffered() {
        assertThat(InquiryReply.of(null, FELT, "", "", Steps.ladder(FELT, 900), ENGLISH))
                .contains("There is no trial on record yet that could answer it.")
                .contains("We would test next at");
    }

    @Test
    void aSinglePassIsNoGroundForAPiece() {
        Evidence once = new Evidence(
                "felt",
                25,
                100,
                500.0,
                500.0,
                900,
                900,
                true,
                List.of(new Point(25, 0.0, 0.0001, null, Double.POSITIVE_INFINITY, 1, 0.00002)));
        assertThat(reply(FELT, once, ENGLISH))
                .contains("nothing was repeated, so nothing can be said of a single piece");
    }

    @Test
    void aReferenceCoarserThanTheToleranceIsNamedWithBothFigures() {
        Evidence coarse = new Evidence(
                "felt",
                25,
                100,
                500.0,
                500.0,
                900,
                900,
                true,
                List.of(
                        new Point(25, 0.0, 0.0001, 0.0002, Double.POSITIVE_INFINITY, 6, 0.0015),
                        new Point(100, 0.0, 0.0001, 0.0002, Double.POSITIVE_INFINITY, 6, 0.0015)));
        // 0.0015 of 1000 mm is 1.5 mm
        assertThat(reply(FELT, coarse, ENGLISH)).contains("known to ±1.5 mm").contains("the tolerance of ±1 mm");
        assertThat(reply(FELT, coarse, GERMAN))
                .contains("nur auf ±1,5 mm bekannt")
                .contains("Toleranz von ±1 mm");
    }
}
