package slowproof.trial.findings;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Setup;
import slowproof.trial.StatedAccuracy;
import slowproof.trial.Trial;
import slowproof.trial.curve.CurveDraws;
import slowproof.trial.curve.CurveResult;
import slowproof.trial.scatter.Estimate;
import slowproof.trial.scatter.VarianceComponents;

/**
 * What a trial says about one material that a forecast for a line can stand on.
 *
 * @param material material
 * @param draws draws of the error curve, or of the errors at the tested speeds for a thin trial; null when nothing was
 *     repeated
 * @param hasCurve whether the draws are those of a fitted curve
 * @param components what makes passes scatter
 * @param startLossMm length gained or lost at each start, or null when strokes cannot tell it
 * @param slowestMmPerS slowest tested speed
 * @param fastestMmPerS fastest tested speed
 * @param slowestAccelerationMmPerS2 smallest acceleration on record, or null when any pass lacks it
 * @param fastestAccelerationMmPerS2 largest acceleration on record, or null
 * @param shortestMm shortest travel of a pass in mm
 * @param longestMm longest travel of a pass in mm
 * @param fastErrorMm mean error in mm at the fastest speed, at its longest stroke
 * @param fastExpandedMm expanded uncertainty of it
 * @param fastLengthMm mean travel there in mm
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
        boolean hasCurve,
        VarianceComponents components,
        @Nullable Estimate startLossMm,
        double slowestMmPerS,
        double fastestMmPerS,
        @Nullable Double slowestAccelerationMmPerS2,
        @Nullable Double fastestAccelerationMmPerS2,
        double shortestMm,
        double longestMm,
        double fastErrorMm,
        double fastExpandedMm,
        double fastLengthMm,
        double readingStepMm,
        double fixedRatio,
        @Nullable Double latencyS,
        @Nullable StatedAccuracy stated,
        boolean decidable,
        @Nullable Double scaleError,
        @Nullable Double floorMmPerS) {
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
        CurveResult curve = result.curve() != null ? result.curve() : CurvePasses.always(trial, passes, seed);
        boolean known = passes.stream().allMatch(p -> p.accelerationMmPerS2() != null);
        double[] accelerations = known
                ? passes.stream()
                        .mapToDouble(p -> Objects.requireNonNull(p.accelerationMmPerS2()))
                        .sorted()
                        .toArray()
                : new double[0];
        double[] lengths = passes.stream().mapToDouble(Pass::lengthMm).sorted().toArray();
        double[] speeds =
                curve.tested().stream().mapToDouble(p -> p.speedMmPerS()).toArray();
        Condition fast = fastest(findings.leading(material));
        Double step = trial.sensor().distancePerCountMm();
        Double shown = step != null ? step : trial.sensor().resolutionMm();
        Double scale = curve.scaleError().value();
        return new LineEvidence(
                material,
                curve.draws(),
                curve.curve() != null,
                curve.scatter(),
                curve.startLossMm(),
                speeds[0],
                speeds[speeds.length - 1],
                known ? Double.valueOf(accelerations[0]) : null,
                known ? Double.valueOf(accelerations[accelerations.length - 1]) : null,
                lengths[0],
                lengths[lengths.length - 1],
                fast.meanErrorMm(),
                fast.expandedUncertainty() * fast.meanLengthMm(),
                fast.meanLengthMm(),
                shown == null ? 0 : shown,
                fixedRatio(trial, fast.meanLengthMm()),
                latency(trial.setup()),
                trial.stated(),
                trial.reference().hasUncertainty(),
                scale,
                result.floor().estimate() != null
                        ? result.floor().estimate()
                        : result.floor().high());
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
        for (var line : SystematicLines.of(trial, lengthMm)) {
            boolean own = line.source().equals(BudgetSource.REFERENCE.name())
                    || line.source().equals(BudgetSource.RESOLUTION.name());
            squares += own ? 0 : line.standardUncertainty() * line.standardUncertainty();
        }
        return Math.sqrt(squares);
    }
}
