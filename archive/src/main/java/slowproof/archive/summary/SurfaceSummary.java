package slowproof.archive.summary;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Limit;
import slowproof.trial.evidence.Evidence;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Direction;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.FloorSpeed;
import slowproof.trial.findings.Material;
import slowproof.trial.findings.Pass;
import slowproof.trial.findings.Standing;

/**
 * What a trial says about one surface, in figures.
 *
 * @param material surface, empty when nobody named it
 * @param standing where it stands, by the answers about a single pass
 * @param floor what is known of its slowest speed for a single pass
 * @param slowestMmPerS slowest tested speed in mm/s
 * @param fastestMmPerS fastest tested speed in mm/s
 * @param failsAtMmPerS fastest tested speed that fails, or null
 * @param holdsFromMmPerS slowest tested speed from which on every tested speed holds, or null
 * @param floorMmPerS floor of the mean error by the error curve in mm/s, or null
 * @param slowestAccelerationMmPerS2 smallest acceleration in mm/s2; null when any pass has none on record
 * @param fastestAccelerationMmPerS2 largest acceleration in mm/s2, or null
 * @param shortestMm shortest pass in mm
 * @param longestMm longest pass in mm
 * @param limitRatio relative part of the limit, or null without a limit
 * @param limitMm fixed part of the limit in mm, or null without a limit
 * @param referenceKnown whether the uncertainty of the reference is on record
 * @param conditions conditions, each in one direction; empty where only the list was asked for
 */
public record SurfaceSummary(
        String material,
        Standing standing,
        FloorSpeed.Status floor,
        double slowestMmPerS,
        double fastestMmPerS,
        @Nullable Double failsAtMmPerS,
        @Nullable Double holdsFromMmPerS,
        @Nullable Double floorMmPerS,
        @Nullable Double slowestAccelerationMmPerS2,
        @Nullable Double fastestAccelerationMmPerS2,
        double shortestMm,
        double longestMm,
        @Nullable Double limitRatio,
        @Nullable Double limitMm,
        boolean referenceKnown,
        List<ConditionSummary> conditions) {
    /** Copies the list. */
    public SurfaceSummary {
        conditions = List.copyOf(conditions);
    }

    /** Returns the same with conditions. */
    public SurfaceSummary with(List<ConditionSummary> others) {
        return new SurfaceSummary(
                material,
                standing,
                floor,
                slowestMmPerS,
                fastestMmPerS,
                failsAtMmPerS,
                holdsFromMmPerS,
                floorMmPerS,
                slowestAccelerationMmPerS2,
                fastestAccelerationMmPerS2,
                shortestMm,
                longestMm,
                limitRatio,
                limitMm,
                referenceKnown,
                others);
    }

    /** Returns it as evidence for an answer; without conditions it tells only how near it lies. */
    public Evidence evidence() {
        return new Evidence(
                material,
                slowestMmPerS,
                fastestMmPerS,
                slowestAccelerationMmPerS2,
                fastestAccelerationMmPerS2,
                shortestMm,
                longestMm,
                referenceKnown,
                conditions.stream().map(ConditionSummary::point).toList());
    }

    static SurfaceSummary of(Findings findings, Material material) {
        String name = material.material();
        List<Condition> leading = findings.leading(name);
        List<Pass> passes =
                findings.passesOf(name).stream().filter(Pass::included).toList();
        boolean accelerations = passes.stream().allMatch(pass -> pass.accelerationMmPerS2() != null);
        FloorSpeed single = findings.singlePassFloor(name);
        Limit limit = findings.trial().limit();
        return new SurfaceSummary(
                name,
                Standing.of(findings.singlePassAnswers(name).values()),
                single.status(),
                leading.stream()
                        .mapToDouble(one -> one.key().speedMmPerS())
                        .min()
                        .orElseThrow(),
                leading.stream()
                        .mapToDouble(one -> one.key().speedMmPerS())
                        .max()
                        .orElseThrow(),
                single.status() == FloorSpeed.Status.HOLDS_IN_A_BAND ? null : single.low(),
                single.safe(),
                material.floor().estimate(),
                accelerations ? acceleration(passes, false) : null,
                accelerations ? acceleration(passes, true) : null,
                passes.stream().mapToDouble(Pass::lengthMm).min().orElseThrow(),
                passes.stream().mapToDouble(Pass::lengthMm).max().orElseThrow(),
                limit == null ? null : Double.valueOf(limit.relative()),
                limit == null ? null : Double.valueOf(limit.absoluteMm()),
                findings.trial().reference().hasUncertainty(),
                findings.conditionsOf(name).stream()
                        .filter(condition -> condition.direction() != Direction.BOTH)
                        .map(condition ->
                                ConditionSummary.of(condition, findings.trial().reference()))
                        .toList());
    }

    private static Double acceleration(List<Pass> passes, boolean largest) {
        return passes.stream()
                .map(pass -> Objects.requireNonNull(pass.accelerationMmPerS2()))
                .reduce(largest ? Math::max : Math::min)
                .orElseThrow();
    }
}
