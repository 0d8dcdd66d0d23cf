package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import slowproof.metrology.Distributions;
import slowproof.metrology.statistics.Grubbs;
import slowproof.metrology.statistics.PooledDeviation;
import slowproof.metrology.statistics.Statistics;

/**
 * Marks stragglers (5 %) and statistical outliers (1 %) among the passes of a condition and direction by Grubbs'
 * test for one outlying observation (ISO 5725-2:2019, 8.3.5; clause from memory). Marks drop nothing.
 *
 * <p>The test takes readings to be continuous. Rounded ones often agree by chance, and of three readings of which two
 * are equal the third is always an outlier. Where the other passes of a group scatter by less than a step of the
 * readings, the test is therefore made as Student's test of the farthest pass against the mean of the others, which is
 * the same (Grubbs' limits derive from it), with a scatter that is not below that of rounding alone; and the pass has to
 * lie more than two steps away, since either reading of a pass and of the others may be off by half a step.
 * With few degrees of freedom the scatter of the whole material may stand for that of the group there, since two or three
 * passes that agree to a step do not tell their own.
 */
final class OutlierMarks {
    private static final int FEWEST = 3;
    private static final double STEPS_APART = 2;
    // a difference of just two steps is no more than that because binary fractions are inexact
    private static final double INEXACT = 1 + 1e-6;

    private final List<double[]> groups;
    private final int at;
    private final double step;
    private final double rounding;
    private final Grubbs.Farthest farthest;

    private OutlierMarks(List<Pass> cell, List<double[]> groups, int at) {
        this.groups = groups;
        this.at = at;
        this.step = MaterialScatter.step(cell);
        this.rounding = MaterialScatter.roundingDeviation(cell);
        this.farthest = Grubbs.statistic(groups.get(at));
    }

    /** Returns the passes with marks added, in the same order; excluded passes are left alone. */
    static List<Pass> mark(List<Pass> passes) {
        List<Pass> counting = passes.stream().filter(Pass::included).toList();
        Map<String, Flag> marks = new HashMap<>();
        ConditionEvaluation.byMaterial(counting).values().forEach(material -> markMaterial(material, marks));
        return passes.stream()
                .map(pass -> marks.containsKey(pass.id()) ? pass.withFlag(marks.get(pass.id())) : pass)
                .toList();
    }

    private static void markMaterial(List<Pass> passes, Map<String, Flag> marks) {
        List<List<Pass>> cells = List.copyOf(MaterialScatter.cells(passes).values());
        List<double[]> groups = cells.stream().map(MaterialScatter::errors).toList();
        for (int i = 0; i < cells.size(); i++) {
            List<Pass> cell = cells.get(i);
            if (cell.size() < FEWEST
                    || MaterialScatter.pooled(List.of(groups.get(i))).standardDeviation() == 0) {
                continue;
            }
            OutlierMarks test = new OutlierMarks(cell, groups, i);
            String id = cell.get(test.farthest.index()).id();
            if (test.rejects(Rules.OUTLIER_LEVEL)) {
                marks.put(id, Flag.OUTLIER);
            } else if (test.rejects(Rules.STRAGGLER_LEVEL)) {
                marks.put(id, Flag.STRAGGLER);
            }
        }
    }

    private boolean rejects(double level) {
        double[] errors = groups.get(at);
        int n = errors.length;
        double[] others = without(errors, farthest.index());
        PooledDeviation own = MaterialScatter.pooled(List.of(others));
        if (own.standardDeviation() >= step) {
            return farthest.statistic() > Grubbs.criticalValue(level, n);
        }
        double distance = Math.abs(errors[farthest.index()] - Statistics.mean(others));
        double chance = level / (2.0 * n);
        double limit = limit(own, chance);
        if (own.degreesOfFreedom() < Rules.FEW_DEGREES_OF_FREEDOM) {
            limit = Math.min(limit, limit(ofMaterial(others), chance));
        }
        return distance > STEPS_APART * step * INEXACT && distance > limit * Math.sqrt(n / (n - 1.0));
    }

    private PooledDeviation ofMaterial(double[] others) {
        List<double[]> all = new ArrayList<>(groups);
        all.set(at, others);
        all.removeIf(group -> group.length < 2);
        return MaterialScatter.pooled(all);
    }

    private double limit(PooledDeviation scatter, double chance) {
        double deviation = Math.max(scatter.standardDeviation(), rounding);
        return -Distributions.studentQuantile(chance, scatter.degreesOfFreedom()) * deviation;
    }

    private static double[] without(double[] values, int index) {
        double[] others = new double[values.length - 1];
        for (int i = 0; i < others.length; i++) {
            others[i] = values[i < index ? i : i + 1];
        }
        return others;
    }
}
