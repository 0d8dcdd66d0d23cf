package slowproof.trial.clock;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.Drive;
import slowproof.trial.simulator.Population;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.RecorderPlan;
import slowproof.trial.simulator.SeriesPlan;
import slowproof.trial.simulator.SimRecording;
import slowproof.trial.simulator.SimReference;
import slowproof.trial.simulator.SimSensor;

/**
 * How well two clocks are found, on random benches with known truth. Prints the table of docs/studies.md; size and
 * seed by the system properties slowproof.trials and slowproof.seed.
 */
@Tag("long")
class ClockStudyTest {
    private static final int TRIALS = Integer.getInteger("slowproof.trials", 60);
    private static final long SEED = Long.getLong("slowproof.seed", 2026);

    /** Recordings of one kind. */
    private record Case(
            String name,
            double speed,
            double stroke,
            int cycles,
            double count,
            double sensorHz,
            double axisHz,
            double jerk,
            double jitterS) {
        Case(String name, double speed, double stroke, int cycles, double count, double sensorHz, double axisHz) {
            this(name, speed, stroke, cycles, count, sensorHz, axisHz, Double.POSITIVE_INFINITY, 0);
        }
    }

    /** What came out of the recordings of one case. */
    private static final class Outcome {
        final List<Double> offsets = new ArrayList<>();
        final List<Double> offsetUs = new ArrayList<>();
        final List<Double> drifts = new ArrayList<>();
        final List<Double> driftUs = new ArrayList<>();
        int offsetInside;
        int driftInside;
        int driftMeasured;
        double lengthS;

        static double rms(List<Double> values) {
            return Math.sqrt(values.stream().mapToDouble(v -> v * v).average().orElse(Double.NaN));
        }

        int size() {
            return offsets.size();
        }
    }

    private static final List<Case> CASES = List.of(
            new Case("usual", 50, 300, 5, 0.05, 1000, 1000),
            new Case("coarse counts", 50, 300, 5, 1, 1000, 1000),
            new Case("200 Hz", 50, 300, 5, 0.05, 200, 200),
            new Case("axis 50 Hz", 50, 300, 5, 0.05, 1000, 50),
            new Case("both 50 Hz", 50, 300, 5, 0.05, 50, 50),
            new Case("fast", 300, 600, 5, 0.05, 1000, 1000),
            new Case("fast, axis 200 Hz", 300, 600, 5, 0.05, 1000, 200),
            new Case("slow", 10, 100, 3, 0.05, 500, 500),
            new Case("long stroke", 25, 900, 5, 0.05, 500, 500),
            new Case("four passes", 50, 300, 2, 0.05, 1000, 1000),
            new Case("S-shaped ramps", 50, 300, 5, 0.05, 1000, 1000, 4000, 0),
            new Case("0.5 ms jitter", 50, 300, 5, 0.05, 1000, 1000, Double.POSITIVE_INFINITY, 0.0005));

    @Test
    void offsetAndDriftOfRandomBenches() {
        System.out.printf(
                Locale.ROOT,
                "| record | length s | refused | offset rms ms | stated u ms | inside %% | drift rms ppm | stated u ppm | inside %% | drift given %% |%n|---|---|---|---|---|---|---|---|---|---|%n");
        for (Case c : CASES) {
            Outcome outcome = run(c);
            int n = outcome.size();
            double offset = Outcome.rms(outcome.offsets);
            double offsetU = Outcome.rms(outcome.offsetUs);
            double drift = Outcome.rms(outcome.drifts);
            System.out.printf(
                    Locale.ROOT,
                    "| %s | %.0f | %d of %d | %.4f | %.4f | %.0f | %.2f | %.2f | %.0f | %.0f |%n",
                    c.name(),
                    outcome.lengthS,
                    TRIALS - n,
                    TRIALS,
                    1e3 * offset,
                    1e3 * offsetU,
                    100.0 * outcome.offsetInside / n,
                    1e6 * drift,
                    1e6 * Outcome.rms(outcome.driftUs),
                    100.0 * outcome.driftInside / n,
                    100.0 * outcome.driftMeasured / n);
            assertThat(TRIALS - n).as("%s: refused", c).isLessThanOrEqualTo(TRIALS / 20);
            // twice the standard uncertainty; three standard deviations of the simulation below 92 %
            double least = 0.92 - 3 * Math.sqrt(0.92 * 0.08 / n);
            assertThat((double) outcome.offsetInside / n).as("%s: offset", c).isGreaterThanOrEqualTo(least);
            assertThat((double) outcome.driftInside / n).as("%s: drift", c).isGreaterThanOrEqualTo(least);
            if (c.sensorHz() >= 200 && c.axisHz() >= 200) {
                assertThat(offset).as("%s: offset", c).isLessThan(Math.max(0.0002, 1.5 * offsetU));
            }
        }
    }

    private static Outcome run(Case c) {
        Outcome outcome = new Outcome();
        for (int k = 0; k < TRIALS; k++) {
            RandomStreams streams = RandomStreams.of(SEED).trial(k);
            Population.Sample sample = Population.draw(streams);
            Drive drive = Drive.of(c.speed(), sample.accelerationMmPerS2()).withJerk(c.jerk());
            SeriesPlan series = SeriesPlan.alternating("s", sample.material(), c.stroke(), drive, c.cycles());
            BenchPlan plan = new BenchPlan(
                    List.of(series),
                    SimSensor.of(c.count()),
                    new SimReference(0.002, 2.5e-6, 0.001),
                    0.05,
                    1.5,
                    0,
                    null);
            // offsets and drifts spread evenly without another generator
            double offset = 0.9 * Math.sin(17 * k + 1);
            double drift = 150 * Math.sin(5 * k + 2);
            RecorderPlan recorder = RecorderPlan.twoClocks(c.sensorHz(), c.axisHz(), offset, drift)
                    .withJitter(c.jitterS());
            SimRecording sim = Bench.record(plan, 0, recorder, streams);
            outcome.lengthS = sim.truth().standstills().get(2 * c.cycles()).endS();
            ClockFit fit = ClockEstimator.align(Recordings.sensor(sim, c.count()), Recordings.axis(sim))
                    .fit();
            if (fit == null) {
                continue;
            }
            double truth = sim.truth().referenceTimeS(fit.epochS()) - fit.epochS();
            double offsetError = fit.offsetAtEpochS() - truth;
            double driftError = fit.drift() - drift * 1e-6;
            outcome.offsets.add(offsetError);
            outcome.offsetUs.add(fit.offsetAtEpochStandardUncertaintyS());
            outcome.drifts.add(driftError);
            outcome.driftUs.add(fit.driftStandardUncertainty());
            outcome.offsetInside += Math.abs(offsetError) <= 2 * fit.offsetAtEpochStandardUncertaintyS() ? 1 : 0;
            outcome.driftInside += Math.abs(driftError) <= 2 * fit.driftStandardUncertainty() ? 1 : 0;
            outcome.driftMeasured += fit.driftMeasured() ? 1 : 0;
        }
        return outcome;
    }
}
