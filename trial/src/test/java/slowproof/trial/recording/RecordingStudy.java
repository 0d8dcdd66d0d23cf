package slowproof.trial.recording;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.jspecify.annotations.Nullable;
import slowproof.trial.clock.Alignment;
import slowproof.trial.clock.ClockEstimator;
import slowproof.trial.clock.ClockFit;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.Drive;
import slowproof.trial.simulator.Dropouts;
import slowproof.trial.simulator.PassTruth;
import slowproof.trial.simulator.Population;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.RecorderPlan;
import slowproof.trial.simulator.SeriesPlan;
import slowproof.trial.simulator.SimRecording;
import slowproof.trial.simulator.SimReference;
import slowproof.trial.simulator.SimSensor;
import slowproof.trial.simulator.SlowRise;

/**
 * Random benches, recorded on two clocks and read back: are the passes found, their errors right, and the clocks told
 * as well as is said?
 *
 * <p>Uniform in the logarithm: speed 5 to 2000 mm/s, stroke 100 to 3000 mm, acceleration 50 to 5000 mm/s2, length of a
 * count 0.01 to 1 mm, sampling of either log 50 Hz to 10 kHz. Half of the benches have S-shaped ramps; jitter up to a
 * fifth of the interval; dropouts of up to 20 % in every second bench, missing rows inside a pass in every third. Clock
 * offset within 1 s, drift within 200 ppm; surface and scatter as in {@link Population}; dwells 1.6 to 3 s, so that both logs share the first and the last; two to five
 * cycles. Long records get fewer cycles, then a lower sampling rate.
 */
final class RecordingStudy {
    private static final double REFERENCE_NOISE_MM = 0.002;
    private static final double FINE_OFFSET_S = 1e-4;
    private static final double FINE_DRIFT = 1e-6;
    private static final int MOST_ROWS = 400_000;

    /**
     * What came of one bench.
     *
     * @param place which bench
     * @param passes true passes
     * @param found passes found
     * @param right passes with an error as near to the truth as counting and the reference's noise allow
     * @param judged passes found at a true one
     * @param worst largest departure of an error over what is allowed
     * @param reason why there is no fine estimate of the clocks, empty when there is one
     * @param joined false when the logs were refused
     * @param offsetError error of the offset at mid-record in s, NaN without an estimate
     * @param offsetU its stated standard uncertainty in s
     * @param driftError error of the drift, a ratio
     * @param driftU its stated standard uncertainty
     * @param factor coverage factor of a 95 % interval by the degrees of freedom
     */
    record Outcome(
            String place,
            int passes,
            int found,
            int right,
            int judged,
            double worst,
            String reason,
            boolean joined,
            double offsetError,
            double offsetU,
            double driftError,
            double driftU) {
        boolean fine() {
            return offsetU <= FINE_OFFSET_S && driftU <= FINE_DRIFT;
        }

        boolean estimated() {
            return !Double.isNaN(offsetError);
        }
    }

    private final List<Outcome> outcomes = new ArrayList<>();

    static RecordingStudy run(long seed, int benches) {
        RecordingStudy study = new RecordingStudy();
        for (int k = 0; k < benches; k++) {
            study.outcomes.add(bench(seed, k));
        }
        return study;
    }

    private static double log(UniformRandomProvider random, double low, double high) {
        return low * Math.pow(high / low, random.nextDouble());
    }

    private static Outcome bench(long seed, int number) {
        RandomStreams streams = RandomStreams.of(seed).trial(number);
        UniformRandomProvider random = RandomSource.XO_SHI_RO_256_PP.create(31 * seed + number);
        Population.Sample sample = Population.draw(streams);
        double speed = log(random, 5, 2000);
        double stroke = log(random, 100, 3000);
        double acceleration = log(random, 50, 5000);
        double count = log(random, 0.01, 1);
        double dwell = random.nextDouble(1.6, 3);
        Drive drive = Drive.of(speed, acceleration);
        if (random.nextBoolean()) {
            double ramp = drive.peakMmPerS(stroke) / acceleration;
            drive = drive.withJerk(acceleration / (random.nextDouble(0.1, 0.5) * ramp));
        }
        double sensorHz = log(random, 50, 10_000);
        double axisHz = log(random, 50, 10_000);
        int cycles = random.nextInt(2, 6);
        double jitter = random.nextBoolean() ? random.nextDouble(0, 0.2) / sensorHz : 0;
        double offset = random.nextDouble(-1, 1);
        double drift = random.nextDouble(-200, 200);
        double lost = random.nextBoolean() ? random.nextDouble(0, 0.2) : 0;
        boolean gap = random.nextInt(3) == 0;
        double pass =
                SeriesPlan.alternating("s", sample.material(), stroke, drive, 1).durationS() + dwell;
        while (cycles > 1 && 2 * cycles * pass * Math.max(sensorHz, axisHz) > MOST_ROWS) {
            cycles--;
        }
        double cap = Math.max(MOST_ROWS / (2 * cycles * pass), 50);
        sensorHz = Math.min(sensorHz, cap);
        axisHz = Math.min(axisHz, cap);
        SeriesPlan series = SeriesPlan.alternating(
                "s",
                sample.material().withDropouts(new Dropouts(SlowRise.constant(lost), 0.2, 0.01, 0)),
                stroke,
                drive,
                cycles);
        BenchPlan plan = new BenchPlan(
                List.of(series),
                SimSensor.of(count),
                new SimReference(REFERENCE_NOISE_MM, 0, 0.001),
                0.02,
                dwell,
                0,
                null);
        SimRecording sim = Bench.record(
                plan, 0, RecorderPlan.twoClocks(sensorHz, axisHz, offset, drift).withJitter(jitter), streams);
        if (gap) {
            PassTruth second = sim.truth().passes().get(1);
            double length = Math.min(0.4, (second.atRestS() - second.leftRestS()) / 4);
            double from = (second.leftRestS() + second.atRestS()) / 2 - offset;
            sim = sim.withSensorGap(from, from + length);
        }
        String place = String.format(
                Locale.ROOT,
                "bench %d: %.0f mm/s, %.0f mm, %.0f mm/s2, q %.3f mm, %.0f and %.0f Hz, %d cycles, dwell %.1f s%s",
                number,
                speed,
                stroke,
                acceleration,
                count,
                sensorHz,
                axisHz,
                cycles,
                dwell,
                gap ? ", gap" : "");
        return judge(sim, count, place);
    }

    private static Outcome judge(SimRecording sim, double count, String place) {
        double[] counts = Arrays.stream(sim.count()).asDoubleStream().toArray();
        Recording sensor = assemble(sim.sensorTimeS(), counts, null, count);
        Recording axis = assemble(sim.axisTimeS(), null, sim.axisPositionMm(), count);
        Alignment alignment = ClockEstimator.align(sensor, axis);
        List<PassTruth> truth = sim.truth().passes();
        String reason = alignment.reason() == null ? "" : alignment.reason().key();
        if (!alignment.usable()) {
            return new Outcome(place, truth.size(), 0, 0, 0, 0, reason, false, Double.NaN, Double.NaN, Double.NaN, 0);
        }
        PassSearch search = PassFinder.find(RecordingJoiner.join(sensor, axis, alignment::referenceTimeS));
        double allowed = count + 3 * Math.sqrt(2) * REFERENCE_NOISE_MM;
        int right = 0;
        int judged = 0;
        double worst = 0;
        for (PassTruth truly : truth) {
            for (FoundPass found : search.passes()) {
                double middle = (found.startS() + found.endS()) / 2;
                if (middle > truly.leftRestS() && middle < truly.atRestS()) {
                    double off = Math.abs(found.errorMm() - truly.errorMm()) / allowed;
                    judged++;
                    right += off <= 1 ? 1 : 0;
                    worst = Math.max(worst, off);
                }
            }
        }
        ClockFit fit = alignment.fit();
        if (fit == null) {
            return new Outcome(
                    place,
                    truth.size(),
                    search.passes().size(),
                    right,
                    judged,
                    worst,
                    reason,
                    true,
                    Double.NaN,
                    Double.NaN,
                    Double.NaN,
                    0);
        }
        double trueOffset = sim.truth().referenceTimeS(fit.epochS()) - fit.epochS();
        return new Outcome(
                place,
                truth.size(),
                search.passes().size(),
                right,
                judged,
                worst,
                "",
                true,
                fit.offsetAtEpochS() - trueOffset,
                fit.offsetAtEpochStandardUncertaintyS(),
                fit.drift() - 1e-6 * sim.truth().clockDriftPpm(),
                fit.driftStandardUncertainty());
    }

    private static Recording assemble(
            double[] time, double @Nullable [] counts, double @Nullable [] axis, double countMm) {
        return RecordingAssembler.assemble(
                new LoggedColumns(
                        counts == null ? "axis.csv" : "sensor.csv",
                        RowLines.from(2),
                        Column.copyOf(time),
                        counts == null ? null : Column.copyOf(counts),
                        null,
                        null,
                        null,
                        axis == null ? null : Column.copyOf(axis),
                        null),
                SensorScale.ofCounts(countMm));
    }

    List<Outcome> outcomes() {
        return List.copyOf(outcomes);
    }

    double share(Predicate<Outcome> good, Predicate<Outcome> among) {
        long all = outcomes.stream().filter(among).count();
        return (double) outcomes.stream().filter(among).filter(good).count() / all;
    }

    double sumShare(ToDoubleFunction<Outcome> part, ToDoubleFunction<Outcome> whole) {
        return outcomes.stream().filter(Outcome::joined).mapToDouble(part).sum()
                / outcomes.stream().filter(Outcome::joined).mapToDouble(whole).sum();
    }

    long count(Predicate<Outcome> among) {
        return outcomes.stream().filter(among).count();
    }

    double rms(ToDoubleFunction<Outcome> value, Predicate<Outcome> among) {
        return Math.sqrt(outcomes.stream()
                .filter(among)
                .mapToDouble(value)
                .map(v -> v * v)
                .average()
                .orElse(Double.NaN));
    }

    /** Benches without a fine estimate, by reason. */
    Map<String, Long> reasons() {
        Map<String, Long> reasons = new TreeMap<>();
        outcomes.stream().filter(o -> !o.estimated()).forEach(o -> reasons.merge(o.reason(), 1L, Long::sum));
        return reasons;
    }

    /** The benches with wrong passes or wrong errors, for messages. */
    String wrong() {
        StringBuilder text = new StringBuilder();
        for (Outcome o : outcomes) {
            if (o.joined() && (o.found() != o.passes() || o.right() != o.judged())) {
                text.append(String.format(
                        Locale.ROOT,
                        "%n%s: %d of %d passes, %d of %d errors right, worst %.2f",
                        o.place(),
                        o.found(),
                        o.passes(),
                        o.right(),
                        o.judged(),
                        o.worst()));
            }
        }
        return text.toString();
    }
}
