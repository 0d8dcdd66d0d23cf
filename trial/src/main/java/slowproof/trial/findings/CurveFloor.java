package slowproof.trial.findings;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Limit;
import slowproof.trial.curve.CurveResult;
import slowproof.trial.curve.FloorEstimate;

/** The floor speed read off an error curve, at the length that the limit is judged at. */
final class CurveFloor {
    private static final double CONFIDENCE_PERCENT = 95;

    private CurveFloor() {}

    /**
     * Returns the length at which a limit with an absolute part is judged, in mm: the stated one, else the median stroke.
     *
     * @param limit limit
     * @param passes passes of one material, at least one
     */
    static double lengthMm(Limit limit, List<Pass> passes) {
        Double stated = limit.atLengthMm();
        if (stated != null) {
            return stated;
        }
        double[] lengths = passes.stream().mapToDouble(Pass::lengthMm).sorted().toArray();
        return (lengths[(lengths.length - 1) / 2] + lengths[lengths.length / 2]) / 2;
    }

    static FloorSpeed of(CurveResult curve, Limit limit, List<Pass> passes) {
        FloorEstimate floor = curve.floor(limit.permissibleRatio(lengthMm(limit, passes)));
        Map<String, ReasonCode> reasons = new TreeMap<>();
        Double low = first(floor.bandLow(), floor.low());
        Double high = first(floor.bandHigh(), floor.high());
        explain(reasons, "estimate_mm_s", floor.estimate());
        explain(reasons, "low_mm_s", low);
        explain(reasons, "high_mm_s", high);
        explain(reasons, "proven_mm_s", floor.proven());
        explain(reasons, "safe_mm_s", floor.safe());
        return new FloorSpeed(
                FloorSpeed.Status.valueOf(floor.status().name()),
                floor.estimate(),
                low,
                high,
                floor.safe(),
                floor.proven(),
                Arrays.stream(passes.stream().mapToDouble(Pass::speedMmPerS).toArray())
                        .min()
                        .orElseThrow(),
                CONFIDENCE_PERCENT,
                List.of(),
                reasons);
    }

    private static @Nullable Double first(@Nullable Double one, @Nullable Double other) {
        return one == null ? other : one;
    }

    private static void explain(Map<String, ReasonCode> reasons, String key, @Nullable Double value) {
        if (value == null) {
            reasons.put(key, ReasonCode.BEYOND_TESTED);
        }
    }
}
