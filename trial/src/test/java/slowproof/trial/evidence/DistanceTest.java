package slowproof.trial.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Distances worked out by hand. */
class DistanceTest {
    private static final Inquiry FELT = new Inquiry("felt", 20, 400.0, 250.0, 500.0, 900, 1);

    private static Evidence evidence(String material, double slowest, double fastest, Double acceleration, double mm) {
        return new Evidence(material, slowest, fastest, acceleration, acceleration, mm, mm, true, List.of());
    }

    @Test
    void whatIsCoveredUnderTheSameNameIsNowhereAway() {
        Distance distance = Distance.of(FELT, evidence("Felt", 20, 400, 500.0, 900));
        assertThat(distance).isEqualTo(new Distance(0, 0, 0, 0));
        assertThat(distance.total()).isZero();
    }

    @Test
    void missingFactorsOfSpeedAddUpAtBothEnds() {
        // 40/20 at the slow end, 400/200 at the fast one: ln 2 each
        assertThat(Distance.of(FELT, evidence("felt", 40, 200, 500.0, 900)).speed())
                .isCloseTo(2 * Math.log(2), within(1e-15));
    }

    @Test
    void accelerationsCountBeyondAFactorOfTwo() {
        // tried 2000 only: 250 is a factor 8 below, of which 2 are allowed
        assertThat(Distance.of(FELT, evidence("felt", 20, 400, 2000.0, 900)).acceleration())
                .isCloseTo(Math.log(4), within(1e-15));
        assertThat(Distance.of(FELT, evidence("felt", 20, 400, 125.0, 900)).acceleration())
                .isCloseTo(Math.log(2), within(1e-15));
        assertThat(Distance.of(FELT, evidence("felt", 20, 400, null, 900)).acceleration())
                .isCloseTo(Math.log(2), within(1e-15));
    }

    @Test
    void totalIsWeighted() {
        // night and nacht: likeness 1/4, so 0.75 of 5; speed ln 2; acceleration ln 4 of 0.5; length ln 3 of 0.25
        Inquiry night = new Inquiry("night", 20, 400.0, 250.0, 500.0, 2700, 1);
        double total =
                Distance.of(night, evidence("nacht", 40, 400, 2000.0, 900)).total();
        assertThat(total).isCloseTo(3.75 + Math.log(2) + 0.5 * Math.log(4) + 0.25 * Math.log(3), within(1e-14));
    }

    @Test
    void aNameAlonePutsEvidenceAtLeastAtItsDistance() {
        for (String name : List.of("night", "nacht", "night shift", "felt", "")) {
            Inquiry night = new Inquiry("night", 20, 400.0, 250.0, 500.0, 2700, 1);
            double least = Distance.atLeast(NameLikeness.of("night", name));
            assertThat(Distance.of(night, evidence(name, 40, 400, 2000.0, 900)).total())
                    .isGreaterThanOrEqualTo(least);
            assertThat(Distance.of(night, evidence(name, 20, 400, 500.0, 2700)).total())
                    .as("nothing else missing")
                    .isEqualTo(least);
        }
    }

    @Test
    void inquiryOutOfOrderIsRefused() {
        assertThatThrownBy(() -> new Inquiry("felt", 20, 10.0, null, null, 900, 1))
                .hasMessageContaining("smallest speed above the largest");
        assertThatThrownBy(() -> new Inquiry("felt", Double.NaN, null, null, null, 900, 1))
                .hasMessageContaining("slowest speed must be above zero");
    }

    @Test
    void speedsThatAreEasyToSet() {
        // series R10 of ISO 3, from memory: 1 1.25 1.6 2 2.5 3.15 4 5 6.3 8 10
        assertThat(PreferredSpeeds.nearest(13)).isEqualTo(12.5);
        assertThat(PreferredSpeeds.nearest(0.34)).isEqualTo(0.315);
        assertThat(PreferredSpeeds.between(25, 100)).isEqualTo(50);
        assertThat(PreferredSpeeds.between(20, 24)).isEqualTo(22);
    }
}
