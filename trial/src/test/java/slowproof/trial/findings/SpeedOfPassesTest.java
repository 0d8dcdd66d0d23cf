package slowproof.trial.findings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import slowproof.trial.IndicatedSpeed;
import slowproof.trial.IndicatedSpeed.Ripple;

class SpeedOfPassesTest {
    private static Pass pass(@Nullable IndicatedSpeed speed, @Nullable Double plateau) {
        return new Pass(
                "a/1", "a", 1, false, "felt", "", 100, plateau, null, 600, 600.6, 0.6, 2, 0.01, null, speed, 0, null,
                "", Set.of(), null);
    }

    private static Pass recorded(double error, double uncertainty, double ripple, double share) {
        return pass(new IndicatedSpeed(error, uncertainty, new Ripple(ripple, share, 0.1)), 100.0);
    }

    @Test
    void variancesAreAveragedAndTheLargerUncertaintyCounts() {
        IndicatedSpeed speed = Objects.requireNonNull(
                SpeedOfPasses.of(List.of(recorded(0.001, 1e-4, 0.003, 0.5), recorded(0.003, 1e-4, 0.001, 0.1))));
        assertThat(speed.error()).isCloseTo(0.002, within(1e-15));
        // standard deviation of the two sqrt(2) 0.001, of their mean 0.001
        assertThat(speed.standardUncertainty()).isCloseTo(0.001, within(1e-15));
        Ripple ripple = Objects.requireNonNull(speed.ripple());
        assertThat(ripple.standardDeviation()).isCloseTo(Math.sqrt(5e-6), within(1e-15));
        // (0.5 x 9 + 0.1 x 1) / (9 + 1)
        assertThat(ripple.countingShare()).isCloseTo(0.46, within(1e-12));
        assertThat(ripple.averagingS()).isEqualTo(0.1);
        IndicatedSpeed equal = Objects.requireNonNull(
                SpeedOfPasses.of(List.of(recorded(0.001, 4e-4, 0, 1), recorded(0.001, 4e-4, 0, 1))));
        assertThat(equal.standardUncertainty()).isCloseTo(4e-4, within(1e-15));
        assertThat(Objects.requireNonNull(equal.ripple()).countingShare()).isEqualTo(1);
    }

    @Test
    void whatIsNotKnownIsExplained() {
        assertThat(SpeedOfPasses.of(List.of(pass(null, null)))).isNull();
        assertThat(SpeedOfPasses.gaps(null, List.of(pass(null, null))))
                .hasSize(5)
                .containsEntry("speed_error_pct", ReasonCode.NOT_RECORDED);
        assertThat(SpeedOfPasses.gaps(null, List.of(pass(null, 100.0))))
                .containsEntry("speed_ripple_pct", ReasonCode.SHORT_PLATEAU);
        Pass typed = pass(new IndicatedSpeed(0.001, null, null), null);
        assertThat(SpeedOfPasses.gaps(SpeedOfPasses.of(List.of(typed)), List.of(typed)))
                .containsEntry("speed_error_standard_uncertainty_pct", ReasonCode.ONE_PASS)
                .doesNotContainKey("speed_error_pct");
    }
}
