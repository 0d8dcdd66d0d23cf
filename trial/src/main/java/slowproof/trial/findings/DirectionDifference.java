package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.metrology.Distributions;

/**
 * Whether forward and return passes of a material err differently over all its conditions: an F test of the differences
 * of the two means against the scatter within condition and direction (one-way analysis of variance, general statistics).
 * Neighbouring passes to and fro share a reading, which makes their difference scatter less than is assumed here: the
 * test errs towards "no difference".
 */
final class DirectionDifference {
    /** Level of the test. */
    private static final double LEVEL = 0.01;

    private static final double LEAST_FREEDOM = 4;

    private DirectionDifference() {}

    /**
     * Returns true when the directions differ.
     *
     * @param passes passes of one material that count
     */
    static boolean significant(List<Pass> passes) {
        Map<ConditionKey, List<List<Pass>>> cells = new LinkedHashMap<>();
        for (Pass pass : passes) {
            cells.computeIfAbsent(ConditionKey.of(pass), key -> List.of(new ArrayList<>(), new ArrayList<>()))
                    .get(pass.direction() == Direction.FORWARD ? 0 : 1)
                    .add(pass);
        }
        double between = 0;
        int differences = 0;
        double within = 0;
        int freedom = 0;
        for (List<List<Pass>> cell : cells.values()) {
            for (List<Pass> group : cell) {
                double mean = mean(group);
                for (Pass pass : group) {
                    within += (pass.error() - mean) * (pass.error() - mean);
                }
                freedom += Math.max(0, group.size() - 1);
            }
            List<Pass> forward = cell.get(0);
            List<Pass> back = cell.get(1);
            if (!forward.isEmpty() && !back.isEmpty()) {
                double difference = mean(forward) - mean(back);
                between += difference * difference / (1.0 / forward.size() + 1.0 / back.size());
                differences++;
            }
        }
        if (differences == 0 || freedom < LEAST_FREEDOM || !(within > 0)) {
            return false;
        }
        double f = between / differences / (within / freedom);
        return 1 - Distributions.fCdf(f, differences, freedom) < LEVEL;
    }

    private static double mean(List<Pass> passes) {
        return passes.stream().mapToDouble(Pass::error).average().orElse(0);
    }
}
