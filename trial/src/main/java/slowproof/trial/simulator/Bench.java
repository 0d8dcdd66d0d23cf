package slowproof.trial.simulator;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.jspecify.annotations.Nullable;

/**
 * Runs a plan on the simulated bench. Each series draws from random streams of its own, so a series gives the
 * same numbers whatever stands after it in the plan; read or recorded, it makes the same passes.
 *
 * <p>Standstill readings: the deterministic part of a pass is integrated over time once per series; each pass
 * then adds start scatter, travel scatter and drift, and is counted in whole edges of one common count.
 */
public final class Bench {
    private Bench() {}

    /**
     * Returns the standstill readings of a plan.
     *
     * @param plan what is done
     * @param streams seed and trial number
     */
    public static BenchReadings read(BenchPlan plan, RandomStreams streams) {
        Draws draws = new Draws(plan, streams);
        List<SimReading> readings = new ArrayList<>();
        List<PassTruth> passes = new ArrayList<>();
        double startS = 0;
        for (int i = 0; i < plan.series().size(); i++) {
            SeriesPlan series = plan.series().get(i);
            SeriesRun run = SeriesRun.of(plan, series, draws.ofPasses(i), startS);
            Reader reader = new Reader(plan, series, run, draws.referenceScale, draws.ofNoise(i));
            reader.read(startS, readings, passes);
            startS += series.passes() * (run.model().durationS() + plan.dwellS()) + plan.changeoverS();
        }
        return new BenchReadings(readings, passes, draws.referenceScale);
    }

    /**
     * Returns the recording of one series of a plan: from one dwell before its first pass to one dwell after its
     * last.
     *
     * @param plan what is done
     * @param series index of the series in the plan, from 0
     * @param recorder how it is recorded
     * @param streams seed and trial number
     * @throws IndexOutOfBoundsException if there is no such series
     * @throws IllegalArgumentException if the sensor's clock begins after the first dwell
     */
    public static SimRecording record(BenchPlan plan, int series, RecorderPlan recorder, RandomStreams streams) {
        Draws draws = new Draws(plan, streams);
        return recorder(plan, series, recorder, draws).record(draws.referenceScale, draws.ofNoise(series));
    }

    /**
     * Returns the counted edges of one series with their times, instead of samples of the count: the same passes as
     * {@link #record}, the same travel scatter on the way, without jitter, register and dropouts.
     *
     * @param plan what is done
     * @param series index of the series in the plan, from 0
     * @param recorder clock and latency; its rates, jitter and register have no effect
     * @param streams seed and trial number
     * @throws IndexOutOfBoundsException if there is no such series
     * @throws IllegalArgumentException if the sensor's clock begins after the first dwell
     */
    public static SimEdges edges(BenchPlan plan, int series, RecorderPlan recorder, RandomStreams streams) {
        Draws draws = new Draws(plan, streams);
        return recorder(plan, series, recorder, draws).edges(draws.referenceScale, draws.ofNoise(series));
    }

    private static Recorder recorder(BenchPlan plan, int series, RecorderPlan recorder, Draws draws) {
        double startS = 0;
        for (SeriesPlan earlier : plan.series().subList(0, series)) {
            startS += earlier.passes() * (earlier.durationS() + plan.dwellS()) + plan.changeoverS();
        }
        SeriesPlan recorded = plan.series().get(series);
        return new Recorder(plan, recorded, SeriesRun.of(plan, recorded, draws.ofPasses(series), startS), recorder);
    }

    /** The random numbers of a trial, each kind in its own place. */
    private static final class Draws {
        private final UniformRandomProvider[] generators;
        private final double referenceScale;

        Draws(BenchPlan plan, RandomStreams streams) {
            generators = streams.generators(1 + 2 * plan.series().size());
            referenceScale = plan.reference().scaleUncertaintyRatio()
                    * RandomStreams.normal(generators[0]).next();
        }

        UniformRandomProvider ofPasses(int series) {
            return generators[1 + 2 * series];
        }

        UniformRandomProvider ofNoise(int series) {
            return generators[2 + 2 * series];
        }
    }

    /** Reads one series at its standstills. */
    private static final class Reader {
        private final BenchPlan plan;
        private final SeriesPlan series;
        private final SeriesRun run;
        private final double referenceScale;
        private final RandomStreams.Normal normal;
        // true position of the axis, and what the sensor has made of it, before counting
        private double positionMm;
        private double sensedMm;
        private final long startCount;

        Reader(
                BenchPlan plan,
                SeriesPlan series,
                SeriesRun run,
                double referenceScale,
                UniformRandomProvider generator) {
            this.plan = plan;
            this.series = series;
            this.run = run;
            this.referenceScale = referenceScale;
            this.normal = RandomStreams.normal(generator);
            this.sensedMm = run.phaseMm();
            this.startCount = plan.sensor().count(sensedMm);
        }

        void read(double startS, List<SimReading> readings, List<PassTruth> passes) {
            readings.add(standstill(Double.NaN, "", startS));
            for (int i = 0; i < run.passes().size(); i++) {
                SeriesRun.Pass pass = run.passes().get(i);
                double driftMm = plan.sensor().standstillDriftMmPerMin() * plan.dwellS() / 60;
                positionMm += pass.travelMm();
                sensedMm += pass.travelMm() + pass.direction() * pass.errorMm() + driftMm;
                passes.add(new PassTruth(
                        series.name(),
                        i + 1,
                        pass.travelMm(),
                        pass.systematicErrorMm(),
                        pass.errorMm(),
                        pass.dropoutShare(),
                        pass.leftRestS(),
                        pass.atRestS()));
                readings.add(standstill(pass.dropoutShare(), track(i), pass.atRestS() + plan.dwellS()));
            }
        }

        /** What is written down at the end of a dwell. */
        private SimReading standstill(double dropoutShare, String track, double timeS) {
            double referenceMm =
                    positionMm * (1 + referenceScale) + plan.reference().readingNoiseMm() * normal.next();
            long count = plan.sensor().count(sensedMm) - startCount;
            double readingMm = plan.sensor().distancePerCountMm() * count;
            return new SimReading(
                    series.name(),
                    series.material().name(),
                    series.drive().speedMmPerS(),
                    series.drive().accelerationMmPerS2(),
                    Rounding.toStep(referenceMm, plan.reference().resolutionMm()),
                    Rounding.toStep(readingMm, plan.sensor().readingResolutionMm()),
                    Rounding.toStep(100 * dropoutShare, 0.01),
                    track,
                    time(timeS));
        }

        private String track(int pass) {
            return series.tracks() == 1 ? "" : Integer.toString(series.track(pass) + 1);
        }

        private @Nullable Instant time(double timeS) {
            Instant start = plan.startedAt();
            return start == null ? null : start.plus(Duration.ofMillis(Math.round(1000 * timeS)));
        }
    }
}
