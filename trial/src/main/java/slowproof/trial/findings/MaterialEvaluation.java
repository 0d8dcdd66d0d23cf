package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Limit;
import slowproof.trial.Trial;
import slowproof.trial.curve.Compensation;
import slowproof.trial.curve.CurveReason;
import slowproof.trial.curve.CurveResult;
import slowproof.trial.curve.Drawing;
import slowproof.trial.dropout.DropoutLimit;

/** Sums up each material: floor and scatter of one pass. */
final class MaterialEvaluation {
    /** A pass longer by this factor than the shortest of its condition is another stroke. */
    private static final double ANOTHER_STROKE = 1.1;

    /** Change of speed, as a share of it, that a compensation has to bear; our choice, stated in the findings. */
    private static final double SPEED_CHANGE = 0.1;

    private MaterialEvaluation() {}

    /**
     * Returns the materials in file order.
     *
     * @param trial trial
     * @param passes passes that count
     * @param conditions their conditions
     * @param drawing how error curves are drawn
     */
    static List<Material> of(Trial trial, List<Pass> passes, List<Condition> conditions, Drawing drawing) {
        List<Material> materials = new ArrayList<>();
        for (List<Pass> own : ConditionEvaluation.byMaterial(passes).values()) {
            materials.add(material(trial, own, leading(own.get(0).material(), conditions), drawing));
        }
        return List.copyOf(materials);
    }

    private static Material material(Trial trial, List<Pass> passes, List<Condition> leading, Drawing drawing) {
        Map<String, ReasonCode> reasons = new TreeMap<>();
        Double scatter = passScatterMm(passes);
        if (scatter == null) {
            reasons.put("pass_scatter_mm", ReasonCode.NO_REPEATS);
        }
        Limit limit = trial.limit();
        DropoutLimit dropouts = limit == null
                ? null
                : DropoutLimit.of(CurvePasses.errors(passes), limit::permissibleErrorMm, drawing.seed());
        CurveResult curve = CurvePasses.fit(trial, passes, drawing);
        if (curve == null || curve.curve() == null) {
            CurveReason why = curve == null ? CurveReason.THIN_TRIAL : curve.reason();
            reasons.put("error_curve", why == null ? ReasonCode.NO_CURVE : ReasonCode.valueOf(why.name()));
        }
        Map<Direction, CurveResult> byDirection = byDirection(trial, passes, curve, drawing);
        return new Material(
                passes.get(0).material(),
                floor(trial, passes, leading, curve, byDirection),
                scatter,
                curve,
                byDirection,
                curve == null ? null : curve.scaleError(),
                curve == null ? null : largest(curve, dropouts),
                dropouts,
                reasons);
    }

    /** Returns a curve for each direction where the two differ and both carry one; else nothing. */
    private static Map<Direction, CurveResult> byDirection(
            Trial trial, List<Pass> passes, @Nullable CurveResult both, Drawing drawing) {
        if (both == null || !DirectionDifference.significant(passes)) {
            return Map.of();
        }
        Map<Direction, CurveResult> curves = new EnumMap<>(Direction.class);
        for (Direction direction : List.of(Direction.FORWARD, Direction.RETURN)) {
            List<Pass> own = passes.stream()
                    .filter(pass -> pass.direction() == direction)
                    .toList();
            CurveResult curve = own.isEmpty() ? null : CurvePasses.fit(trial, own, drawing);
            if (curve == null || curve.curve() == null) {
                return Map.of();
            }
            curves.put(direction, curve);
        }
        return curves;
    }

    private static FloorSpeed floor(
            Trial trial,
            List<Pass> passes,
            List<Condition> leading,
            @Nullable CurveResult curve,
            Map<Direction, CurveResult> byDirection) {
        Limit limit = trial.limit();
        if (limit == null || !trial.reference().hasUncertainty()) {
            return FloorBracket.of(leading, Condition::decision);
        }
        if (!byDirection.isEmpty()) {
            return byDirection.values().stream()
                    .map(one -> CurveFloor.of(one, limit, passes))
                    .max(Comparator.comparingDouble(MaterialEvaluation::slowness))
                    .orElseThrow();
        }
        return curve == null || curve.curve() == null
                ? FloorBracket.of(leading, Condition::decision)
                : CurveFloor.of(curve, limit, passes);
    }

    /** Orders floors from the most to the least favourable: by what may be promised, then by the estimate. */
    private static double slowness(FloorSpeed floor) {
        if (floor.status() == FloorSpeed.Status.HOLDS_THROUGHOUT) {
            return 0;
        }
        Double proven = floor.proven();
        Double estimate = floor.estimate();
        return proven != null && estimate != null ? proven : Double.POSITIVE_INFINITY;
    }

    private static @Nullable Compensation largest(CurveResult curve, @Nullable DropoutLimit dropouts) {
        Double limit = dropouts == null ? null : dropouts.limitPct();
        return curve.compensation(SPEED_CHANGE, limit == null ? 100 : limit).stream()
                .max(Comparator.comparingDouble(Compensation::asFound))
                .orElse(null);
    }

    /** Returns for each condition of a material the row that speaks for it: both directions, else the only one. */
    static List<Condition> leading(String material, List<Condition> conditions) {
        Map<ConditionKey, Condition> rows = new LinkedHashMap<>();
        conditions.stream()
                .filter(condition -> condition.key().material().equals(material))
                .forEach(condition -> rows.put(condition.key(), condition));
        return List.copyOf(rows.values());
    }

    private static @Nullable Double passScatterMm(List<Pass> passes) {
        List<double[]> groups = MaterialScatter.cells(passes).values().stream()
                .flatMap(cell -> byStroke(cell).stream())
                .filter(cell -> cell.size() > 1)
                .map(cell -> cell.stream().mapToDouble(Pass::errorMm).toArray())
                .toList();
        return groups.isEmpty() ? null : MaterialScatter.pooled(groups).standardDeviation();
    }

    /** Errors in mm of a short and a long stroke have different means; that is no scatter. */
    private static List<List<Pass>> byStroke(List<Pass> passes) {
        List<Pass> ascending = new ArrayList<>(passes);
        ascending.sort(Comparator.comparingDouble(Pass::lengthMm));
        List<List<Pass>> strokes = new ArrayList<>();
        double first = 0;
        for (Pass pass : ascending) {
            if (strokes.isEmpty() || pass.lengthMm() > ANOTHER_STROKE * first) {
                strokes.add(new ArrayList<>());
                first = pass.lengthMm();
            }
            strokes.get(strokes.size() - 1).add(pass);
        }
        return strokes;
    }
}
