package slowproof.trial.simulator;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;

/**
 * Random surfaces and benches for studies. The ranges are fixed, so that figures of different studies can be
 * compared:
 *
 * <ul>
 *   <li>knee 10 to 150 mm/s, uniform in its logarithm; width 5 to 25 % of it; one of the five shapes
 *   <li>depth 0.5 to 6 %, uniform in its logarithm, of either sign; scale error -0.1 to 0.1 %
 *   <li>limit 0.1 to 0.3 %; stroke 900 to 1200 mm; acceleration 300 to 1000 mm/s2
 *   <li>pass (start) scatter 0.01 to 0.1 mm, travel scatter 0.006 to 0.03 mm per square root of a metre, both uniform
 *       in their logarithm
 *   <li>0.05 mm per count; reference noise 0.002 mm and scale 2.5 ppm (standard uncertainties), resolution 0.0001 mm
 *   <li>ladder 400 mm/s downwards to 8 mm/s by 1.25 (18 speeds), 5 cycles forward and back, 1 s dwell
 * </ul>
 */
public final class Population {
    /** Fast end of the ladder, mm/s. */
    public static final double FASTEST_MM_PER_S = 400;

    /** Bound at the slow end of the ladder, mm/s. */
    public static final double SLOWEST_MM_PER_S = 8;

    /** Ratio of neighbouring speeds of the ladder. */
    public static final double LADDER_RATIO = 1.25;

    /** Number of cycles at each speed. */
    public static final int CYCLES = 5;

    /** Name of the random material. */
    public static final String MATERIAL = "surface";

    private Population() {}

    /**
     * One random bench.
     *
     * @param material the true surface
     * @param curve its curve, with its parts
     * @param limitRatio limit of the magnitude of the relative error, ratio
     * @param strokeMm stroke, mm
     * @param accelerationMmPerS2 acceleration and deceleration, mm/s2
     * @param streams streams of the bench's noise
     */
    public record Sample(
            TrueMaterial material,
            KneeCurve curve,
            double limitRatio,
            double strokeMm,
            double accelerationMmPerS2,
            RandomStreams streams) {
        /** Returns the true floor speed within the ladder, see {@link TrueCurve#floorMmPerS}. */
        public double floorMmPerS() {
            return curve.floorMmPerS(limitRatio, SLOWEST_MM_PER_S, FASTEST_MM_PER_S);
        }

        /** Returns the plan of the standard ladder and number of cycles. */
        public BenchPlan plan() {
            return plan(BenchPlan.ladder(FASTEST_MM_PER_S, SLOWEST_MM_PER_S, LADDER_RATIO), CYCLES);
        }

        /**
         * Returns a plan with other speeds and repeats.
         *
         * @param speedsMmPerS programmed speeds, mm/s, in the order in which they are run
         * @param cycles forward and return passes at each speed, at least 1
         */
        public BenchPlan plan(List<Double> speedsMmPerS, int cycles) {
            List<SeriesPlan> series = new ArrayList<>();
            for (int i = 0; i < speedsMmPerS.size(); i++) {
                Drive drive = Drive.of(speedsMmPerS.get(i), accelerationMmPerS2);
                series.add(SeriesPlan.alternating("s" + (i + 1), material, strokeMm, drive, cycles));
            }
            return BenchPlan.of(series, SimSensor.of(0.05), new SimReference(0.002, 2.5e-6, 0.0001));
        }

        private Sample withCurve(KneeCurve other) {
            TrueMaterial changed = TrueMaterial.of(MATERIAL, other)
                    .withStart(material.startLossMm(), material.startScatterMm())
                    .withTravelScatter(material.travelScatterMmPerSqrtM());
            return new Sample(changed, other, limitRatio, strokeMm, accelerationMmPerS2, streams);
        }

        /** Returns the readings of the standard plan. */
        public BenchReadings read() {
            return Bench.read(plan(), streams);
        }
    }

    /**
     * Draws a bench whose floor lies inside the ladder, between its second slowest and second fastest speed;
     * draws outside are repeated.
     *
     * @param streams seed and trial number
     */
    public static Sample draw(RandomStreams streams) {
        List<Double> ladder = BenchPlan.ladder(FASTEST_MM_PER_S, SLOWEST_MM_PER_S, LADDER_RATIO);
        double slowest = ladder.get(1);
        double fastest = ladder.get(ladder.size() - 2);
        UniformRandomProvider generator = streams.drawing();
        Sample sample = sample(generator, streams);
        double floor = sample.floorMmPerS();
        while (!(floor >= slowest && floor <= fastest)) {
            sample = sample(generator, streams);
            floor = sample.floorMmPerS();
        }
        return sample;
    }

    /**
     * Draws a bench on which the limit holds at every speed: as {@link #draw}, but with a depth of 20 to 90 % of
     * what the scale error leaves of the limit.
     *
     * @param streams seed and trial number
     */
    public static Sample drawHoldingThroughout(RandomStreams streams) {
        UniformRandomProvider generator = streams.drawing();
        Sample sample = sample(generator, streams);
        KneeCurve curve = sample.curve;
        double sign = Math.signum(curve.depthRatio());
        double scale = 0.9 * curve.scaleErrorRatio();
        double depth = sign * generator.nextDouble(0.2, 0.9) * (sample.limitRatio - Math.abs(scale));
        return sample.withCurve(new KneeCurve(curve.shape(), curve.kneeMmPerS(), curve.kneeWidthShare(), depth, scale));
    }

    /**
     * Draws a bench on which the limit holds at no speed: as {@link #draw}, but with a scale error of 1.2 to 3
     * limits and a depth of the same sign.
     *
     * @param streams seed and trial number
     */
    public static Sample drawHoldingNowhere(RandomStreams streams) {
        UniformRandomProvider generator = streams.drawing();
        Sample sample = sample(generator, streams);
        KneeCurve curve = sample.curve;
        double scale = Math.signum(curve.depthRatio()) * generator.nextDouble(1.2, 3) * sample.limitRatio;
        return sample.withCurve(
                new KneeCurve(curve.shape(), curve.kneeMmPerS(), curve.kneeWidthShare(), curve.depthRatio(), scale));
    }

    private static Sample sample(UniformRandomProvider generator, RandomStreams streams) {
        CurveShape[] shapes = CurveShape.values();
        double sign = generator.nextBoolean() ? 1 : -1;
        KneeCurve curve = new KneeCurve(
                shapes[generator.nextInt(shapes.length)],
                logUniform(generator, 10, 150),
                generator.nextDouble(0.05, 0.25),
                sign * logUniform(generator, 0.005, 0.06),
                generator.nextDouble(-0.001, 0.001));
        TrueMaterial material = TrueMaterial.of(MATERIAL, curve)
                .withStart(0, logUniform(generator, 0.01, 0.1))
                .withTravelScatter(logUniform(generator, 0.006, 0.03));
        return new Sample(
                material,
                curve,
                generator.nextDouble(0.001, 0.003),
                generator.nextDouble(900, 1200),
                generator.nextDouble(300, 1000),
                streams);
    }

    private static double logUniform(UniformRandomProvider generator, double low, double high) {
        return low * Math.exp(generator.nextDouble() * Math.log(high / low));
    }
}
