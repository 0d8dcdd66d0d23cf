package slowproof.trial.simulator;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.apache.commons.rng.sampling.ListSampler;
import org.apache.commons.rng.simple.RandomSource;
import org.jspecify.annotations.Nullable;

/**
 * What is done on the simulated bench, in order.
 *
 * @param series the series, in the order in which they are run; at least one, names unique
 * @param sensor the sensor
 * @param reference the reference
 * @param stopScatterMm standard deviation of the true position at which the axis stops, mm, at least 0
 * @param dwellS standstill before the first and after each pass, s, positive
 * @param changeoverS time between series, s, at least 0
 * @param startedAt time of the first standstill; null leaves the readings without time
 */
public record BenchPlan(
        List<SeriesPlan> series,
        SimSensor sensor,
        SimReference reference,
        double stopScatterMm,
        double dwellS,
        double changeoverS,
        @Nullable Instant startedAt) {
    /** Checks and copies the parts. */
    public BenchPlan {
        series = List.copyOf(series);
        if (series.isEmpty()) {
            throw new IllegalArgumentException("a bench plan needs at least one series");
        }
        if (series.stream().map(SeriesPlan::name).distinct().count() != series.size()) {
            throw new IllegalArgumentException("names of series must be unique");
        }
        Objects.requireNonNull(sensor, "sensor");
        Objects.requireNonNull(reference, "reference");
        Check.notNegative(stopScatterMm, "stop scatter");
        Check.positive(dwellS, "dwell");
        Check.notNegative(changeoverS, "changeover");
    }

    /** Returns a plan without stop scatter and times, with 1 s dwell and no changeover. */
    public static BenchPlan of(List<SeriesPlan> series, SimSensor sensor, SimReference reference) {
        return new BenchPlan(series, sensor, reference, 0, 1, 0, null);
    }

    /**
     * Returns the plan with its series in random order.
     *
     * @param seed seed of the order
     */
    public BenchPlan shuffled(long seed) {
        List<SeriesPlan> order = new ArrayList<>(series);
        ListSampler.shuffle(RandomSource.XO_SHI_RO_256_PP.create(seed), order);
        return new BenchPlan(order, sensor, reference, stopScatterMm, dwellS, changeoverS, startedAt);
    }

    /**
     * Returns a geometric ladder of speeds: the fastest, and down from it by a constant ratio while not slower
     * than the slowest.
     *
     * @param fastestMmPerS fast end, mm/s, positive
     * @param slowestMmPerS bound at the slow end, mm/s, positive
     * @param ratio ratio of neighbours, above 1
     * @return speeds in mm/s, ascending
     */
    public static List<Double> ladder(double fastestMmPerS, double slowestMmPerS, double ratio) {
        Check.positive(fastestMmPerS, "fastest speed");
        Check.positive(slowestMmPerS, "slowest speed");
        if (!(ratio > 1)) {
            throw new IllegalArgumentException("ladder ratio must be above 1: " + ratio);
        }
        List<Double> speeds = new ArrayList<>();
        double speed = fastestMmPerS;
        // rounding must not lose a slowest step that is meant to be exact
        while (speed >= slowestMmPerS * (1 - 1e-9)) {
            speeds.add(0, speed);
            speed = fastestMmPerS / Math.pow(ratio, speeds.size());
        }
        return List.copyOf(speeds);
    }
}
