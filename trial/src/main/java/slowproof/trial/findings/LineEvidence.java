package slowproof.trial.findings;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Setup;
import slowproof.trial.StatedAccuracy;
import slowproof.trial.Trial;
import slowproof.trial.curve.CurveDraws;
import slowproof.trial.curve.CurveResult;
import slowproof.trial.curve.Drawing;
import slowproof.trial.scatter.Estimate;
import slowproof.trial.scatter.VarianceComponents;

/**
 * What a trial says about one material that a forecast for a line can stand on.
 *
 * @param material material
 * @param draws draws of the error curve, or of the errors at the tested speeds for a thin trial; null when nothing was
 *     repeated. Where both directions have a curve of their own, that of forward passes
 * @param backward what return passes say by themselves, where both directions have a curve of their own; else null
 * @param hasCurve whether the draws are those of a fitted curve
 * @param components what makes passes scatter
 * @param startLossMm length gained or lost at each start, or null when strokes cannot tell it
 * @param slowestMmPerS slowest tested speed
 * @param fastestMmPerS fastest tested speed
 * @param slowestAccelerationMmPerS2 smallest acceleration on record, or null when any pass lacks it
 * @param fastestAccelerationMmPerS2 largest acceleration on record, or null
 * @param shortestMm shortest travel of a pass in mm
 * @param longestMm longest travel of a pass in mm
 * @param fast error at the fastest speed, at its longest stroke
 * @param readingStepMm step of a reading on the line in mm: one count, else that of the display, else 0
 * @param fixedRatio standard uncertainty, a ratio, of what all pieces of a set-up share beside curve and reference:
 *     misalignment, temperature, Abbe offset
 * @param latencyS latency of the sensor as noted with the trial in s, or null
 * @param stated what the maker promises, or null
 * @param decidable whether the reference has a stated uncertainty
 * @param scaleError scale error that a factor could take out, a ratio, or null
 * @param floorMmPerS floor speed for a limit of the trial, or null when there is none
 */
public record LineEvidence(
        String material,
        @Nullable CurveDraws draws,
        @Nullable Backward backward,
        boolean hasCurve,
        VarianceComponents components,
        @Nullable Estimate startLossMm,
        double slowestMmPerS,
        double fastestMmPerS,
        @Nullable Double slowestAccelerationMmPerS2,
        @Nullable Double fastestAccelerationMmPerS2,
        double shortestMm,
        double longestMm,
        Fast fast,
        double readingStepMm,
        double fixedRatio,
        @Nullable Double latencyS,
        @Nullable StatedAccuracy stated,
        boolean decidable,
        @Nullable Double scaleError,
        @Nullable Double floorMmPerS) {
    /**
     * What passes at the fastest speed say.
     *
     * @param errorMm mean error in mm
     * @param expandedMm expanded uncertainty of it in mm
     * @param lengthMm mean travel of a pass in mm, above zero
     */
    public record Fast(double errorMm, double expandedMm, double lengthMm) {
        private static Fast of(Condition condition) {
            return new Fast(
                    condition.meanErrorMm(),
                    condition.expandedUncertainty() * condition.meanLengthMm(),
                    condition.meanLengthMm());
        }
    }

    /**
     * What return passes say where they differ from forward ones.
     *
     * @param draws draws of their error curve; an over-reading is positive, whatever the direction
     * @param slowestMmPerS their slowest speed
     * @param fastestMmPerS their fastest speed
     * @param fast their error at the fastest speed
     */
    public record Backward(CurveDraws draws, double slowestMmPerS, double fastestMmPerS, Fast fast) {}

    /**
     * Returns the slowest speed in mm/s that was tested in every direction in question.
     *
     * @param back whether travel backwards counts too
     */
    public double slowestMmPerS(boolean back) {
        return back && backward != null ? Math.max(slowestMmPerS, backward.slowestMmPerS) : slowestMmPerS;
    }

    /**
     * Returns the fastest speed in mm/s that was tested in every direction in question.
     *
     * @param back whether travel backwards counts too
     */
    public double fastestMmPerS(boolean back) {
        return back && backward != null ? Math.min(fastestMmPerS, backward.fastestMmPerS) : fastestMmPerS;
    }

    /**
     * Returns the evidence on a material.
     *
     * @param findings findings of the trial
     * @param material a material of the trial
     * @param seed seed of the draws of a thin trial
     * @throws IllegalArgumentException if the trial has no such material
     */
    public static LineEvidence of(Findings findings, String material, long seed) {
        Trial trial = findings.trial();
        Material result = findings.materials().stream()
                .filter(m -> m.material().equals(material))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no material " + material));
        List<Pass> passes =
                findings.passesOf(material).stream().filter(Pass::included).toList();
        CurveResult curve =
                result.curve() != null ? result.curve() : CurvePasses.always(trial, passes, Drawing.of(seed));
        boolean known = passes.stream().allMatch(p -> p.accelerationMmPerS2() != null);
        double[] accelerations = known
                ? passes.stream()
                        .mapToDouble(p -> Objects.requireNonNull(p.accelerationMmPerS2()))
                        .sorted()
                        .toArray()
                : new double[0];
        double[] lengths = passes.stream().mapToDouble(Pass::lengthMm).sorted().toArray();
        CurveResult ahead = result.byDirection().getOrDefault(Direction.FORWARD, curve);
        CurveResult back = result.byDirection().get(Direction.RETURN);
        double[] speeds = speeds(ahead);
        Fast fast = back == null
                ? Fast.of(fastest(findings.leading(material)))
                : fast(findings, material, Direction.FORWARD);
        Double step = trial.sensor().distancePerCountMm();
        Double shown = step != null ? step : trial.sensor().resolutionMm();
        Double scale = curve.scaleError().value();
        return new LineEvidence(
                material,
                ahead.draws(),
                back == null ? null : backward(back, fast(findings, material, Direction.RETURN)),
                curve.curve() != null,
                curve.scatter(),
                startLoss(ahead, back),
                speeds[0],
                speeds[speeds.length - 1],
                known ? Double.valueOf(accelerations[0]) : null,
                known ? Double.valueOf(accelerations[accelerations.length - 1]) : null,
                lengths[0],
                lengths[lengths.length - 1],
                fast,
                shown == null ? 0 : shown,
                fixedRatio(trial, fast.lengthMm()),
                latency(trial.setup()),
                trial.stated(),
                trial.reference().hasUncertainty(),
                scale,
                result.floor().estimate() != null
                        ? result.floor().estimate()
                        : result.floor().high());
    }

    private static double[] speeds(CurveResult curve) {
        return curve.tested().stream().mapToDouble(p -> p.speedMmPerS()).toArray();
    }

    private static Fast fast(Findings findings, String material, Direction direction) {
        return Fast.of(fastest(findings.conditionsOf(material).stream()
                .filter(condition -> condition.direction() == direction)
                .toList()));
    }

    private static Backward backward(CurveResult curve, Fast fast) {
        double[] speeds = speeds(curve);
        CurveDraws draws = Objects.requireNonNull(curve.draws(), "a direction of its own has a curve");
        return new Backward(draws, speeds[0], speeds[speeds.length - 1], fast);
    }

    /** Returns the start loss; of two directions the interval that holds both. */
    private static @Nullable Estimate startLoss(CurveResult ahead, @Nullable CurveResult back) {
        Estimate forward = ahead.startLossMm();
        Estimate returned = back == null ? forward : back.startLossMm();
        return forward == null || returned == null
                ? null
                : new Estimate(
                        forward.value(),
                        Math.min(forward.low(), returned.low()),
                        Math.max(forward.high(), returned.high()));
    }

    private static @Nullable Double latency(Setup setup) {
        return setup.latencyS();
    }

    private static Condition fastest(List<Condition> conditions) {
        Condition best = conditions.get(0);
        for (Condition condition : conditions) {
            int faster =
                    Double.compare(condition.key().speedMmPerS(), best.key().speedMmPerS());
            if (faster > 0 || (faster == 0 && condition.meanLengthMm() > best.meanLengthMm())) {
                best = condition;
            }
        }
        return best;
    }

    private static double fixedRatio(Trial trial, double lengthMm) {
        double squares = 0;
        for (var line : SystematicLines.of(trial, lengthMm, 0)) {
            boolean own = line.source().equals(BudgetSource.REFERENCE.name())
                    || line.source().equals(BudgetSource.RESOLUTION.name());
            squares += own ? 0 : line.standardUncertainty() * line.standardUncertainty();
        }
        return Math.sqrt(squares);
    }
}
