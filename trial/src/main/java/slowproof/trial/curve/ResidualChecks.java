package slowproof.trial.curve;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.metrology.Distributions;
import slowproof.metrology.statistics.Grubbs;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.note.Quantity;
import slowproof.trial.scatter.ConditionBlock;
import slowproof.trial.scatter.PassError;

/**
 * Looks for what repeated passes should not show: a trend along the series, a first cycle unlike the others, runs of
 * one sign, one pass far from all. Everything is done on deviations from the mean of condition, series and direction:
 * a series that climbs a ladder of speeds would otherwise show the error curve as a drift, and passes to and fro share
 * readings but passes of one direction do not. A pass whose condition was not repeated in its series says nothing. Series
 * are taken in the order in which the passes are given. Tests at 1 %, so that clean data are seldom marked; no
 * scatter is taken as less than that of rounding alone.
 */
final class ResidualChecks {
    private static final double LEVEL = 0.01;
    private static final int LEAST_GROUP = 3;
    // the error of a pass and that to which it is compared may each be off by a step
    private static final double STEPS_APART = 2;

    private ResidualChecks() {}

    /** Passes of one condition, series and direction, by their place in the series. */
    private record Group(List<PassError> passes, double meanMm) {
        double residual(int i) {
            return passes.get(i).errorMm() - meanMm;
        }
    }

    /**
     * Returns what is to be said.
     *
     * @param passes passes of one material that count
     * @param material what the notes speak of
     * @param stepMm smallest step in which readings can differ in mm, at least 0
     */
    static List<Note> notes(List<PassError> passes, String material, double stepMm) {
        double rounding = CurveSettings.roundingVarianceMm2(stepMm);
        List<Group> groups = groups(passes);
        List<Note> notes = new ArrayList<>();
        trend(groups, rounding, material, notes);
        warmUp(groups, rounding, material, notes);
        runs(groups, material, notes);
        outlier(groups, stepMm, notes);
        order(passes, material, notes);
        return notes;
    }

    private static List<Group> groups(List<PassError> passes) {
        Map<String, Integer> conditions = new HashMap<>();
        List<ConditionBlock> blocks = ConditionBlock.of(passes);
        for (int i = 0; i < blocks.size(); i++) {
            int condition = i;
            blocks.get(i).passes().forEach(pass -> conditions.put(pass.id(), condition));
        }
        Map<String, List<PassError>> bySeries = new LinkedHashMap<>();
        for (PassError pass : passes) {
            String key = conditions.get(pass.id()) + (pass.direction() > 0 ? "+" : "-") + pass.series();
            bySeries.computeIfAbsent(key, s -> new ArrayList<>()).add(pass);
        }
        List<Group> groups = new ArrayList<>();
        for (List<PassError> group : bySeries.values()) {
            if (group.size() >= LEAST_GROUP) {
                group.sort(Comparator.comparingInt(PassError::indexInSeries));
                groups.add(new Group(
                        group,
                        group.stream().mapToDouble(PassError::errorMm).average().orElseThrow()));
            }
        }
        return groups;
    }

    /** Pooled slope of the deviations against the place in the series. */
    private static void trend(List<Group> groups, double rounding, String material, List<Note> notes) {
        double xx = 0;
        double xy = 0;
        double yy = 0;
        int freedom = -1;
        for (Group group : groups) {
            double middle = group.passes().stream()
                    .mapToInt(PassError::indexInSeries)
                    .average()
                    .orElseThrow();
            for (int i = 0; i < group.passes().size(); i++) {
                double x = group.passes().get(i).indexInSeries() - middle;
                double y = group.residual(i);
                xx += x * x;
                xy += x * y;
                yy += y * y;
            }
            freedom += group.passes().size() - 1;
        }
        if (freedom < 3 || !(xx > 0)) {
            return;
        }
        double slope = xy / xx;
        double left = Math.max((yy - slope * xy) / freedom, rounding);
        if (left > 0 && significant(slope / Math.sqrt(left / xx), freedom)) {
            notes.add(Note.of(NoteCode.DRIFT_IN_SERIES, material, Quantity.mm(slope)));
        }
    }

    /** Mean of the first passes of all series and directions against the others. */
    private static void warmUp(List<Group> groups, double rounding, String material, List<Note> notes) {
        double difference = 0;
        double weights = 0;
        double squares = 0;
        int freedom = 0;
        for (Group group : groups) {
            int n = group.passes().size();
            double rest = 0;
            for (int i = 1; i < n; i++) {
                rest += group.residual(i) / (n - 1);
            }
            for (int i = 1; i < n; i++) {
                squares += (group.residual(i) - rest) * (group.residual(i) - rest);
            }
            // variance of first less mean of the rest is s^2 n/(n - 1)
            double weight = (n - 1.0) / n;
            difference += weight * (group.residual(0) - rest);
            weights += weight;
            freedom += n - 2;
        }
        if (freedom < 3 || !(squares > 0)) {
            return;
        }
        double u = Math.sqrt(Math.max(squares / freedom, rounding) / weights);
        if (significant(difference / weights / u, freedom)) {
            notes.add(Note.of(NoteCode.WARM_UP, material, Quantity.mm(difference / weights)));
        }
    }

    /** Runs of one sign, summed over the groups (NIST/SEMATECH e-Handbook 1.3.5.13). */
    private static void runs(List<Group> groups, String material, List<Note> notes) {
        double excess = 0;
        double variance = 0;
        for (Group group : groups) {
            int positive = 0;
            int runs = 1;
            int n = group.passes().size();
            for (int i = 0; i < n; i++) {
                positive += group.residual(i) > 0 ? 1 : 0;
                runs += i > 0 && group.residual(i) > 0 != group.residual(i - 1) > 0 ? 1 : 0;
            }
            excess += runs - runsMean(positive, n - positive);
            variance += runsVariance(positive, n - positive);
        }
        if (groups.isEmpty() || !(variance > 1)) {
            return;
        }
        double z = excess / Math.sqrt(variance);
        if (2 * (1 - Distributions.normalCdf(Math.abs(z))) < LEVEL) {
            notes.add(Note.of(NoteCode.ORDER_NOT_RANDOM, material));
        }
    }

    /** One pass far from all, on deviations brought to equal variance within their groups (Grubbs). */
    private static void outlier(List<Group> groups, double stepMm, List<Note> notes) {
        List<PassError> all = new ArrayList<>();
        List<Double> values = new ArrayList<>();
        for (Group group : groups) {
            int n = group.passes().size();
            for (int i = 0; i < n; i++) {
                all.add(group.passes().get(i));
                values.add(group.residual(i) * Math.sqrt(n / (n - 1.0)));
            }
        }
        if (values.size() < 6) {
            return;
        }
        double[] deviations = values.stream().mapToDouble(Double::doubleValue).toArray();
        boolean equal = true;
        for (double value : deviations) {
            equal &= value == deviations[0];
        }
        if (equal) {
            return;
        }
        Grubbs.Farthest farthest = Grubbs.statistic(deviations);
        double limit = Grubbs.criticalValue(LEVEL, deviations.length);
        double distance = Math.abs(deviations[farthest.index()]);
        double least = limit * Math.sqrt(CurveSettings.roundingVarianceMm2(stepMm));
        if (farthest.statistic() > limit && distance > Math.max(STEPS_APART * stepMm, least)) {
            notes.add(Note.of(
                    NoteCode.RESIDUAL_OUTLIER,
                    all.get(farthest.index()).id(),
                    Quantity.mm(deviations[farthest.index()])));
        }
    }

    /**
     * Drift between series. Where a condition was run in several series, the means are tried against the order of the
     * series; where none was, and the speeds came in rising or falling order, a drift would look like an effect of
     * speed.
     */
    private static void order(List<PassError> passes, String material, List<Note> notes) {
        Map<String, Integer> place = new LinkedHashMap<>();
        List<Double> speeds = new ArrayList<>();
        for (PassError pass : passes) {
            if (!place.containsKey(pass.series())) {
                place.put(pass.series(), place.size());
                speeds.add(pass.speedMmPerS());
            }
        }
        double xx = 0;
        double xy = 0;
        double yy = 0;
        int freedom = -1;
        boolean repeated = false;
        for (ConditionBlock block : ConditionBlock.of(passes)) {
            Map<String, List<Double>> bySeries = new LinkedHashMap<>();
            for (PassError pass : block.passes()) {
                bySeries.computeIfAbsent(pass.series(), s -> new ArrayList<>()).add(pass.errorMm());
            }
            if (bySeries.size() < 2) {
                continue;
            }
            repeated = true;
            int n = bySeries.size();
            double[] x = new double[n];
            double[] y = new double[n];
            int at = 0;
            for (Map.Entry<String, List<Double>> series : bySeries.entrySet()) {
                x[at] = place.getOrDefault(series.getKey(), 0);
                y[at++] = series.getValue().stream()
                        .mapToDouble(Double::doubleValue)
                        .average()
                        .orElseThrow();
            }
            double middleX = 0;
            double middleY = 0;
            for (int i = 0; i < n; i++) {
                middleX += x[i] / n;
                middleY += y[i] / n;
            }
            for (int i = 0; i < n; i++) {
                xx += (x[i] - middleX) * (x[i] - middleX);
                xy += (x[i] - middleX) * (y[i] - middleY);
                yy += (y[i] - middleY) * (y[i] - middleY);
            }
            freedom += n - 1;
        }
        if (!repeated) {
            if (speeds.size() >= LEAST_GROUP && oneWay(speeds)) {
                notes.add(Note.of(NoteCode.ORDER_CONFOUNDED, material));
            }
            return;
        }
        if (freedom >= 1 && xx > 0) {
            double slope = xy / xx;
            double left = yy - slope * xy;
            if (left > 0 && significant(slope / Math.sqrt(left / freedom / xx), freedom)) {
                notes.add(Note.of(NoteCode.DRIFT_BETWEEN_SERIES, material, Quantity.mm(slope)));
            }
        }
    }

    private static boolean oneWay(List<Double> speeds) {
        boolean rising = true;
        boolean falling = true;
        for (int i = 1; i < speeds.size(); i++) {
            rising &= speeds.get(i) >= speeds.get(i - 1);
            falling &= speeds.get(i) <= speeds.get(i - 1);
        }
        return rising || falling;
    }

    private static boolean significant(double t, int freedom) {
        return 2 * (1 - Distributions.studentCdf(Math.abs(t), freedom)) < LEVEL;
    }

    private static double runsMean(int positive, int negative) {
        return 1 + 2.0 * positive * negative / (positive + negative);
    }

    private static double runsVariance(int positive, int negative) {
        double n = positive + negative;
        double twice = 2.0 * positive * negative;
        return n > 1 ? twice * (twice - n) / (n * n * (n - 1)) : 0;
    }

    /** Returns the number of runs as a standard normal variable; 0 when all signs are alike or nothing can be said. */
    static double runsZ(int positive, int negative, int runs) {
        double variance = runsVariance(positive, negative);
        return variance > 0 ? (runs - runsMean(positive, negative)) / Math.sqrt(variance) : 0;
    }
}
