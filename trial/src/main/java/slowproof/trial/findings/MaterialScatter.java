package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.statistics.Cochran;
import slowproof.metrology.statistics.PooledDeviation;
import slowproof.metrology.statistics.Statistics;

/**
 * The scatter of one material over its conditions and directions: pooled repeatability and the comparison of
 * variances by Cochran's test (ISO 5725-2:2019, 8.3.4; clause from memory). For the test no variance counts as less
 * than what rounding alone gives, lest two readings that happen to agree make a difference of one step an outlier.
 */
final class MaterialScatter {
    /** A condition in one direction. */
    record Cell(ConditionKey key, Direction direction) {
        // written out for the same reason as those of the key

        @Override
        public boolean equals(@Nullable Object other) {
            return other instanceof Cell cell && direction == cell.direction && key.equals(cell.key);
        }

        @Override
        public int hashCode() {
            return 31 * key.hashCode() + direction.hashCode();
        }
    }

    private final @Nullable PooledDeviation pooled;
    private final boolean alike;
    private final Map<Cell, Flag> marks;

    private MaterialScatter(@Nullable PooledDeviation pooled, boolean alike, Map<Cell, Flag> marks) {
        this.pooled = pooled;
        this.alike = alike;
        this.marks = marks;
    }

    /**
     * Returns the scatter of the passes of one material.
     *
     * @param passes passes of one material that count
     */
    static MaterialScatter of(List<Pass> passes) {
        Map<Cell, List<Pass>> cells = cells(passes);
        cells.values().removeIf(cell -> cell.size() < 2);
        if (cells.isEmpty()) {
            return new MaterialScatter(null, true, Map.of());
        }
        List<double[]> groups = new ArrayList<>();
        cells.values().forEach(cell -> groups.add(errors(cell)));
        double rounding = cells.values().stream()
                .mapToDouble(MaterialScatter::roundingDeviation)
                .max()
                .orElseThrow();
        Map<Cell, Flag> marks = compareVariances(new ArrayList<>(cells.keySet()), groups, rounding * rounding);
        return new MaterialScatter(pooled(groups), !marks.containsValue(Flag.COCHRAN_OUTLIER), marks);
    }

    /** Returns the passes by condition and direction, in the order in which these come up. */
    static Map<Cell, List<Pass>> cells(List<Pass> passes) {
        Map<Cell, List<Pass>> cells = new LinkedHashMap<>();
        for (Pass pass : passes) {
            cells.computeIfAbsent(new Cell(ConditionKey.of(pass), pass.direction()), c -> new ArrayList<>())
                    .add(pass);
        }
        return cells;
    }

    static double[] errors(List<Pass> passes) {
        return passes.stream().mapToDouble(Pass::error).toArray();
    }

    /**
     * Returns the pooled standard deviation of groups, exactly zero when each repeats exactly: taken from the
     * first value of its group, equal values leave no rounding behind.
     */
    static PooledDeviation pooled(List<double[]> groups) {
        return PooledDeviation.of(groups.stream().map(MaterialScatter::shifted).toList());
    }

    private static double[] shifted(double[] group) {
        return Arrays.stream(group).map(value -> value - group[0]).toArray();
    }

    /** Returns the smallest step in which readings of the passes differ in mm; 0 when none is known. */
    static double stepMm(List<Pass> passes) {
        // somebody who types 900 for 900.0 has not seen a coarser display
        return passes.stream().mapToDouble(Pass::stepMm).min().orElse(0);
    }

    /** Returns the step of the readings over the shortest length, a ratio; 0 when no step is known. */
    static double step(List<Pass> passes) {
        return stepMm(passes)
                / passes.stream().mapToDouble(Pass::lengthMm).min().orElseThrow();
    }

    /** Returns the standard deviation that rounding alone gives to a relative error: two readings of step/sqrt(12). */
    static double roundingDeviation(List<Pass> passes) {
        return step(passes) / Math.sqrt(6);
    }

    private static Map<Cell, Flag> compareVariances(List<Cell> cells, List<double[]> groups, double least) {
        if (groups.size() < 2) {
            return Map.of();
        }
        double[] variances = new double[groups.size()];
        int largest = 0;
        for (int i = 0; i < variances.length; i++) {
            double deviation = Statistics.standardDeviation(shifted(groups.get(i)));
            variances[i] = deviation * deviation;
            largest = variances[i] > variances[largest] ? i : largest;
        }
        if (!(variances[largest] > 0)) {
            return Map.of();
        }
        double statistic = Cochran.statistic(
                Arrays.stream(variances).map(v -> Math.max(v, least)).toArray());
        int perGroup = commonestSize(groups);
        if (statistic > Cochran.criticalValue(Rules.OUTLIER_LEVEL, variances.length, perGroup)) {
            return Map.of(cells.get(largest), Flag.COCHRAN_OUTLIER);
        }
        if (statistic > Cochran.criticalValue(Rules.STRAGGLER_LEVEL, variances.length, perGroup)) {
            return Map.of(cells.get(largest), Flag.COCHRAN_STRAGGLER);
        }
        return Map.of();
    }

    /** The test wants equal numbers; with unequal ones the commonest is taken, the smaller of two as common. */
    private static int commonestSize(List<double[]> groups) {
        Map<Integer, Integer> counts = new HashMap<>();
        groups.forEach(group -> counts.merge(group.length, 1, Integer::sum));
        int best = 0;
        for (Map.Entry<Integer, Integer> entry : counts.entrySet()) {
            int votes = entry.getValue();
            int bestVotes = counts.getOrDefault(best, 0);
            if (votes > bestVotes || (votes == bestVotes && entry.getKey() < best)) {
                best = entry.getKey();
            }
        }
        return best;
    }

    /** Returns the pooled repeatability of relative errors, or null when nothing was repeated. */
    @Nullable
    PooledDeviation pooled() {
        return pooled;
    }

    /** Returns false when Cochran's test rejects equal variances at 1 %. */
    boolean alike() {
        return alike;
    }

    /** Returns the mark of a condition in one direction, or null. */
    @Nullable
    Flag mark(ConditionKey key, Direction direction) {
        return marks.get(new Cell(key, direction));
    }
}
