package slowproof.trial.simulator;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.jspecify.annotations.Nullable;

/**
 * Runs a plan on the simulated bench. Each series draws from a random stream of its own, so a series gives the same numbers whatever stands after it in the plan.
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
        UniformRandomProvider[] generators = streams.generators(plan.series().size() + 1);
        double referenceScale = plan.reference().scaleUncertaintyRatio()
                * RandomStreams.normal(generators[0]).next();
        List<SimReading> readings = new ArrayList<>();
        List<PassTruth> passes = new ArrayList<>();
        double startS = 0;
        for (int i = 0; i < plan.series().size(); i++) {
            SeriesReader reader =
                    new SeriesReader(plan, plan.series().get(i), referenceScale, generators[i + 1], startS);
            reader.run(readings, passes);
            startS = reader.timeS + plan.changeoverS();
        }
        return new BenchReadings(readings, passes, referenceScale);
    }

    /** The state of the bench during one series. */
    private static final class SeriesReader {
        private final BenchPlan plan;
        private final SeriesPlan series;
        private final TrueMaterial material;
        private final double referenceScale;
        private final RandomStreams.Normal normal;
        private final PassModel model;
        private final double seriesScale;
        // true position of the axis, and what the sensor has made of it, before counting
        private double positionMm;
        private double sensedMm;
        private final long startCount;
        private double timeS;

        SeriesReader(
                BenchPlan plan,
                SeriesPlan series,
                double referenceScale,
                UniformRandomProvider generator,
                double startS) {
            this.plan = plan;
            this.series = series;
            this.material = series.material();
            this.referenceScale = referenceScale;
            this.normal = RandomStreams.normal(generator);
            this.model = PassModel.of(series);
            this.seriesScale = material.seriesScatterRatio() * normal.next();
            // the carriage starts anywhere within a count
            this.sensedMm = plan.sensor().distancePerCountMm() * generator.nextDouble();
            this.startCount = count();
            this.timeS = startS;
        }

        void run(List<SimReading> readings, List<PassTruth> passes) {
            rest(readings, Double.NaN);
            double targetMm = 0;
            for (int pass = 0; pass < series.passes(); pass++) {
                int direction = series.direction(pass);
                targetMm += direction * series.passMm();
                double travelMm = targetMm + plan.stopScatterMm() * normal.next() - positionMm;
                double lengthMm = Math.abs(travelMm);
                double share = model.dropoutShare(material, normal.next());
                double systematic = model.systematicErrorMm(material, lengthMm, direction);
                double error = systematic
                        + model.startScatterMm() * normal.next()
                        + model.travelScatterMm(lengthMm) * normal.next()
                        + lengthMm * (seriesScale + plan.sensor().scaleDriftPerHour() * timeS / 3600)
                        + lengthMm * material.dropouts().errorPerShare() * (share - model.meanDropoutShare());
                double leftRestS = timeS;
                positionMm += travelMm;
                sensedMm += travelMm + direction * error;
                timeS += model.durationS();
                passes.add(
                        new PassTruth(series.name(), pass + 1, travelMm, systematic, error, share, leftRestS, timeS));
                rest(readings, share);
            }
        }

        /** Dwells, and reads both at the end of the dwell. */
        private void rest(List<SimReading> readings, double dropoutShare) {
            if (!Double.isNaN(dropoutShare)) {
                timeS += plan.dwellS();
                sensedMm += plan.sensor().standstillDriftMmPerMin() * plan.dwellS() / 60;
            }
            double referenceMm =
                    positionMm * (1 + referenceScale) + plan.reference().readingNoiseMm() * normal.next();
            double readingMm = (count() - startCount) * plan.sensor().distancePerCountMm();
            readings.add(new SimReading(
                    series.name(),
                    material.name(),
                    series.drive().speedMmPerS(),
                    series.drive().accelerationMmPerS2(),
                    rounded(referenceMm, plan.reference().resolutionMm()),
                    rounded(readingMm, plan.sensor().readingResolutionMm()),
                    rounded(100 * dropoutShare, 0.01),
                    time()));
        }

        private long count() {
            return (long) Math.floor(sensedMm / plan.sensor().distancePerCountMm());
        }

        private @Nullable Instant time() {
            Instant start = plan.startedAt();
            return start == null ? null : start.plus(Duration.ofMillis(Math.round(1000 * timeS)));
        }
    }

    /** Rounds to a multiple of a step such that the result prints without digits of representation. NaN stays NaN, -0 becomes 0. */
    static double rounded(double value, double step) {
        if (Double.isNaN(value)) {
            return value;
        }
        double perStep = 1 / step;
        double whole = Math.rint(perStep);
        // 0.05 is not representable, 20 is: dividing by whole steps gives the double nearest to the decimal number
        return Math.abs(perStep - whole) < 1e-9 * perStep
                ? Math.rint(value * whole) / whole + 0.0
                : Math.rint(value / step) * step + 0.0;
    }
}
