package slowproof.trial.simulator;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The invented scenario of the demo and of the tests: a plant that cuts acoustic felt, aluminium-faced glass fabric
 * and clear film to length, and a bench with a carriage of 900 mm stroke. No real plant, sensor or material is
 * meant; the true figures stand here so that results can be compared with them.
 *
 * <p>With a limit of 0.15 % + 0.05 mm at 900 mm the true floors are about 44 mm/s (felt), 76 mm/s (fabric, which
 * over-reads at low speed) and 119 mm/s (film, which loses distance early).
 */
public final class DemoPlant {
    /** Name of the felt. */
    public static final String FELT = "acoustic felt";

    /** Name of the fabric. */
    public static final String FABRIC = "aluminium-faced glass fabric";

    /** Name of the film. */
    public static final String FILM = "clear film";

    /** Stroke of the carriage, mm. */
    public static final double STROKE_MM = 900;

    /** The second, short stroke, which tells start losses from scale errors, mm. */
    public static final double SHORT_STROKE_MM = 250;

    /** Acceleration and deceleration of the carriage, mm/s2. */
    public static final double ACCELERATION_MM_PER_S2 = 500;

    /** Cycles at each speed. */
    public static final int CYCLES = 5;

    /** Length of one counted edge, mm. */
    public static final double DISTANCE_PER_COUNT_MM = 0.05;

    /** Expanded uncertainty of the carriage scale, absolute part, k = 2, mm. */
    public static final double REFERENCE_EXPANDED_MM = 0.02;

    /** Expanded uncertainty of the carriage scale, relative part, k = 2, ppm. */
    public static final double REFERENCE_EXPANDED_PPM = 8;

    /** Limit, relative part, ratio. */
    public static final double LIMIT_RATIO = 0.0015;

    /** Limit, absolute part, mm. */
    public static final double LIMIT_MM = 0.05;

    /** Length of a piece on the line, mm. */
    public static final double PIECE_MM = 2500;

    /** Tolerance of a piece, plus or minus, mm. */
    public static final double TOLERANCE_MM = 2;

    private static final List<Double> SPEEDS_MM_PER_S =
            List.of(5.0, 8.0, 13.0, 21.0, 35.0, 55.0, 90.0, 150.0, 245.0, 400.0);
    private static final List<Double> SHORT_SPEEDS_MM_PER_S = List.of(55.0, 90.0, 245.0);

    private DemoPlant() {}

    /** Returns the tested speeds of the long stroke, mm/s, ascending. */
    public static List<Double> speedsMmPerS() {
        return SPEEDS_MM_PER_S;
    }

    /** Returns the tested speeds of the short stroke, mm/s, ascending. */
    public static List<Double> shortSpeedsMmPerS() {
        return SHORT_SPEEDS_MM_PER_S;
    }

    /** Returns the true felt. */
    public static TrueMaterial felt() {
        return TrueMaterial.of(FELT, new KneeCurve(CurveShape.LOGISTIC, 29, 0.20, -0.025, 0.0002))
                .withStart(-0.03, 0.03)
                .withTravelScatter(0.015)
                .withSeriesScatter(1e-5)
                .withDropouts(new Dropouts(new SlowRise(0.001, 0.03, 29, 0.25), 0.15, 0.02, 0));
    }

    /** Returns the true fabric. */
    public static TrueMaterial fabric() {
        return TrueMaterial.of(FABRIC, new KneeCurve(CurveShape.HILL, 45, 0.20, 0.018, 0.0003))
                .withStart(0.02, 0.04)
                .withTravelScatter(0.02)
                .withSeriesScatter(1e-5)
                .withDropouts(new Dropouts(new SlowRise(0.002, 0.05, 45, 0.25), 0.15, 0.02, 0));
    }

    /** Returns the true film. */
    public static TrueMaterial film() {
        return TrueMaterial.of(FILM, new KneeCurve(CurveShape.GOMPERTZ, 72, 0.15, -0.045, -0.0002))
                .withStart(-0.08, 0.06)
                .withTravelScatter(0.03)
                .withSeriesScatter(1e-5)
                .withDropouts(new Dropouts(new SlowRise(0.004, 0.15, 72, 0.20), 0.15, 0.03, 0));
    }

    /** Returns the true materials in the order of the trial. */
    public static List<TrueMaterial> materials() {
        return List.of(felt(), fabric(), film());
    }

    /** Returns the limit of the local relative error at a length in mm, ratio. */
    public static double limitRatio(double lengthMm) {
        return LIMIT_RATIO + LIMIT_MM / Check.positive(lengthMm, "length");
    }

    /** Returns the sensor of the bench. */
    public static SimSensor sensor() {
        return SimSensor.of(DISTANCE_PER_COUNT_MM);
    }

    /** Returns the carriage scale. */
    public static SimReference reference() {
        return new SimReference(0.003, REFERENCE_EXPANDED_PPM * 1e-6 / 2, 0.01);
    }

    /**
     * Returns the plan of the whole trial: three materials, ten speeds on the long and three on the short stroke.
     *
     * @param startedAt time of the first reading; null leaves the readings without time
     */
    public static BenchPlan plan(@Nullable Instant startedAt) {
        List<SeriesPlan> series = new ArrayList<>();
        addSeries(series, "felt", felt());
        addSeries(series, "fabric", fabric());
        addSeries(series, "film", film());
        return new BenchPlan(series, sensor(), reference(), 0.01, 2, 20, startedAt);
    }

    private static void addSeries(List<SeriesPlan> series, String prefix, TrueMaterial material) {
        for (double speed : SPEEDS_MM_PER_S) {
            series.add(series(prefix + "-" + Math.round(speed), material, STROKE_MM, speed));
        }
        for (double speed : SHORT_SPEEDS_MM_PER_S) {
            series.add(series(prefix + "-short-" + Math.round(speed), material, SHORT_STROKE_MM, speed));
        }
    }

    private static SeriesPlan series(String name, TrueMaterial material, double strokeMm, double speedMmPerS) {
        return SeriesPlan.alternating(name, material, strokeMm, Drive.of(speedMmPerS, ACCELERATION_MM_PER_S2), CYCLES);
    }

    /**
     * Returns the cycle of the line: 400 mm/s, the fastest speed of the trial, then creep at 35 mm/s to the cut, and
     * a stop of 1.5 s.
     */
    public static LineCycle line() {
        return new LineCycle(
                PIECE_MM,
                List.of(
                        new LineStep.RampTo(400, ACCELERATION_MM_PER_S2),
                        new LineStep.HoldMm(2000),
                        new LineStep.RampTo(35, ACCELERATION_MM_PER_S2),
                        new LineStep.HoldRest(),
                        new LineStep.RampTo(0, ACCELERATION_MM_PER_S2),
                        new LineStep.Stop(1.5)));
    }
}
