package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.trial.Trial;

/**
 * Groups passes to conditions and evaluates each: materials in file order, speed ascending, forward, return,
 * both.
 */
final class ConditionEvaluation {
    private ConditionEvaluation() {}

    /**
     * Returns the conditions of the passes.
     *
     * @param trial trial
     * @param passes passes that count
     * @param cycles cycles of which both passes count
     */
    static List<Condition> of(Trial trial, List<Pass> passes, List<Cycle> cycles) {
        List<Condition> conditions = new ArrayList<>();
        for (List<Pass> material : byMaterial(passes).values()) {
            MaterialScatter scatter = MaterialScatter.of(material);
            for (Map.Entry<ConditionKey, List<Pass>> group : byKey(material)) {
                conditions.addAll(rows(trial, group.getKey(), group.getValue(), scatter, cycles));
            }
        }
        return List.copyOf(conditions);
    }

    static Map<String, List<Pass>> byMaterial(List<Pass> passes) {
        Map<String, List<Pass>> groups = new LinkedHashMap<>();
        passes.forEach(pass ->
                groups.computeIfAbsent(pass.material(), m -> new ArrayList<>()).add(pass));
        return groups;
    }

    private static List<Map.Entry<ConditionKey, List<Pass>>> byKey(List<Pass> passes) {
        Map<ConditionKey, List<Pass>> groups = new LinkedHashMap<>();
        List<String> setups = new ArrayList<>();
        for (Pass pass : passes) {
            groups.computeIfAbsent(ConditionKey.of(pass), k -> new ArrayList<>())
                    .add(pass);
            if (!setups.contains(pass.setup())) {
                setups.add(pass.setup());
            }
        }
        List<Map.Entry<ConditionKey, List<Pass>>> entries = new ArrayList<>(groups.entrySet());
        entries.sort(Map.Entry.comparingByKey(Comparator.comparingDouble(ConditionKey::speedMmPerS)
                .thenComparing(key -> setups.indexOf(key.setup()))
                .thenComparing(ConditionKey::accelerationMmPerS2, Comparator.nullsFirst(Comparator.naturalOrder()))));
        return entries;
    }

    private static List<Condition> rows(
            Trial trial, ConditionKey key, List<Pass> passes, MaterialScatter scatter, List<Cycle> cycles) {
        List<Pass> forward = inDirection(passes, Direction.FORWARD);
        List<Pass> back = inDirection(passes, Direction.RETURN);
        List<Condition> rows = new ArrayList<>();
        if (!forward.isEmpty()) {
            rows.add(new OneDirection(trial, key, forward, scatter).evaluate());
        }
        if (!back.isEmpty()) {
            rows.add(new OneDirection(trial, key, back, scatter).evaluate());
        }
        if (rows.size() == 2) {
            List<Cycle> own = cycles.stream()
                    .filter(cycle -> ConditionKey.of(cycle.forward()).equals(key))
                    .toList();
            rows.add(new BothDirections(trial, key, forward, back, rows.get(0), rows.get(1), scatter, own).evaluate());
        }
        return rows;
    }

    private static List<Pass> inDirection(List<Pass> passes, Direction direction) {
        return passes.stream().filter(pass -> pass.direction() == direction).toList();
    }
}
