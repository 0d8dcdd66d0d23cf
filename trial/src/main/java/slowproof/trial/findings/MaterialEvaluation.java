package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** Sums up each material: floor and scatter of one pass. */
final class MaterialEvaluation {
    private MaterialEvaluation() {}

    /**
     * Returns the materials in file order.
     *
     * @param passes passes that count
     * @param conditions their conditions
     */
    static List<Material> of(List<Pass> passes, List<Condition> conditions) {
        List<Material> materials = new ArrayList<>();
        for (Map.Entry<String, List<Pass>> entry :
                ConditionEvaluation.byMaterial(passes).entrySet()) {
            Map<String, ReasonCode> reasons = new TreeMap<>();
            Double scatter = passScatterMm(entry.getValue());
            if (scatter == null) {
                reasons.put("pass_scatter_mm", ReasonCode.NO_REPEATS);
            }
            materials.add(new Material(
                    entry.getKey(),
                    FloorBracket.of(leading(entry.getKey(), conditions), Condition::decision),
                    scatter,
                    reasons));
        }
        return List.copyOf(materials);
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
        Map<MaterialScatter.Cell, List<Pass>> cells = new LinkedHashMap<>();
        passes.forEach(pass -> cells.computeIfAbsent(
                        new MaterialScatter.Cell(ConditionKey.of(pass), pass.direction()), c -> new ArrayList<>())
                .add(pass));
        List<double[]> groups = cells.values().stream()
                .filter(cell -> cell.size() > 1)
                .map(cell -> cell.stream().mapToDouble(Pass::errorMm).toArray())
                .toList();
        return groups.isEmpty() ? null : MaterialScatter.pooled(groups).standardDeviation();
    }
}
