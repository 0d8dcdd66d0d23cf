package slowproof.metrology.statistics;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hipparchus.util.FastMath;

/** A group of readings that falls into groups, and these again, down to the innermost, which hold readings. */
final class Nest {
    private final List<Nest> parts;
    private final double[] readings;
    private final int count;
    private final double mean;

    private Nest(List<Nest> parts, double[] readings) {
        this.parts = parts;
        this.readings = readings;
        int n = readings.length;
        double sum = 0;
        for (double reading : readings) {
            sum += reading;
        }
        for (Nest part : parts) {
            n += part.count;
            sum += part.count * part.mean;
        }
        count = n;
        mean = sum / n;
    }

    /** Sorts readings into nests by their labels, outermost first; the readings are taken from an origin. */
    static Nest of(int[][] labels, double[] values, double origin) {
        List<Integer> all = new ArrayList<>();
        for (int i = 0; i < values.length; i++) {
            all.add(i);
        }
        return of(labels, values, origin, all, 0);
    }

    private static Nest of(int[][] labels, double[] values, double origin, List<Integer> rows, int level) {
        if (level == labels[0].length) {
            return new Nest(
                    List.of(),
                    rows.stream().mapToDouble(i -> values[i] - origin).toArray());
        }
        Map<Integer, List<Integer>> byLabel = new LinkedHashMap<>();
        for (int i : rows) {
            byLabel.computeIfAbsent(labels[i][level], key -> new ArrayList<>()).add(i);
        }
        List<Nest> parts = new ArrayList<>();
        byLabel.values().forEach(part -> parts.add(of(labels, values, origin, part, level + 1)));
        return new Nest(parts, new double[0]);
    }

    int count() {
        return count;
    }

    double mean() {
        return mean;
    }

    /** All nests at a depth below this one; depth 0 is this one. */
    List<Nest> at(int depth) {
        if (depth == 0) {
            return List.of(this);
        }
        List<Nest> result = new ArrayList<>();
        parts.forEach(part -> result.addAll(part.at(depth - 1)));
        return result;
    }

    /** Sum of squares of the parts' means (or the readings) about this mean, each counted with its readings. */
    double sumAboutMean() {
        double sum = 0;
        for (Nest part : parts) {
            sum += part.count * (part.mean - mean) * (part.mean - mean);
        }
        for (double reading : readings) {
            sum += (reading - mean) * (reading - mean);
        }
        return sum;
    }

    /**
     * What this nest says about the mean above it, when the variances of the levels, in units of the variance of a
     * reading, are known: weighted mean and its variance, sum of squares and log determinant gathered so far.
     */
    Summary summary(double[] ratios, int level) {
        if (parts.isEmpty()) {
            return new Summary(mean, 1.0 / count, sumAboutMean(), FastMath.log(count));
        }
        double weight = 0;
        double weighted = 0;
        double squares = 0;
        double logs = 0;
        Summary[] below = new Summary[parts.size()];
        for (int i = 0; i < below.length; i++) {
            below[i] = parts.get(i).summary(ratios, level + 1);
            double variance = below[i].variance() + ratios[level];
            weight += 1 / variance;
            weighted += below[i].mean() / variance;
            squares += below[i].squares();
            logs += below[i].logDeterminant() + FastMath.log(variance);
        }
        double centre = weighted / weight;
        for (Summary part : below) {
            double variance = part.variance() + ratios[level];
            squares += (part.mean() - centre) * (part.mean() - centre) / variance;
        }
        return new Summary(centre, 1 / weight, squares, logs + FastMath.log(weight));
    }

    record Summary(double mean, double variance, double squares, double logDeterminant) {}
}
