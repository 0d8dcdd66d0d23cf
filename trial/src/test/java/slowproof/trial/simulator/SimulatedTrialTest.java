package slowproof.trial.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.LocalDateTime;
import org.junit.jupiter.api.Test;
import slowproof.trial.Limit;
import slowproof.trial.Series;
import slowproof.trial.Trial;

class SimulatedTrialTest {
    @Test
    void demoTrialCarriesEveryReadingAndTheCertificate() {
        BenchPlan plan = DemoPlant.plan(Instant.parse("2026-03-02T08:00:00Z"));
        BenchReadings bench = Bench.read(plan, RandomStreams.of(9));
        Trial trial = SimulatedTrial.of("demo", plan, bench, Limit.of(0.0015, 0.05));
        assertThat(trial.series())
                .hasSize(39)
                .allSatisfy(s -> assertThat(s.standstills()).hasSize(11));
        Series last = trial.series().get(38);
        SimReading reading = bench.readings().get(bench.readings().size() - 1);
        assertThat(last.name()).isEqualTo("film-short-245");
        assertThat(last.standstills().get(10).readingMm()).isEqualTo(reading.readingMm());
        assertThat(last.standstills().get(10).referenceMm()).isEqualTo(reading.referenceMm());
        assertThat(last.standstills().get(10).dropoutPercent()).isEqualTo(reading.dropoutPct());
        assertThat(last.standstills().get(0).dropoutPercent()).isNull();
        assertThat(last.standstills().get(0).decimals()).isEqualTo(2);
        assertThat(trial.series().get(0).standstills().get(0).time()).isEqualTo(LocalDateTime.of(2026, 3, 2, 8, 0));
        assertThat(trial.reference().expandedUncertaintyPpm()).isCloseTo(8, within(1e-9));
    }

    @Test
    void everyStandstillHasAPlaceOfItsOwn() {
        BenchPlan plan = DemoPlant.plan(null);
        Trial trial = SimulatedTrial.of("demo", plan, Bench.read(plan, RandomStreams.of(9)), Limit.of(0.0015, 0.05));
        assertThat(trial.series().stream()
                        .flatMap(s -> s.standstills().stream())
                        .map(s -> s.at()))
                .doesNotHaveDuplicates();
    }
}
