package slowproof.metrology.regression;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/**
 * Band about a monotone fit, by drawing whole clusters with replacement: percentile bootstrap, widened for few clusters
 * (T. Hesterberg, Am. Stat. 69 (2015) 371, from memory).
 *
 * <p>Readings of one series share their strip of material and mounting and are one cluster: the number of clusters, not
 * of readings, carries the certainty. The band is pointwise and approximate; it is narrow where the fit is level.
 */
public final class IsotonicBand {
    private IsotonicBand() {}

    /**
     * Pointwise percentile intervals of a non-decreasing fit.
     *
     * @param x abscissae; not modified
     * @param y values, one per abscissa; not modified
     * @param clusters which cluster each reading belongs to, at least two different numbers; not modified
     * @param at abscissae at which the band is wanted; not modified
     * @param level two-sided confidence level, above 0 and below 1
     * @param replicates number of draws, at least 100; with few clusters and a high level a thousand or more
     * @param seed of the draws
     * @return one interval per wanted abscissa, in the unit of the values
     * @throws IllegalArgumentException if an argument is out of its range or lengths differ
     */
    public static List<Interval> increasing(
            double[] x, double[] y, int[] clusters, double[] at, double level, int replicates, long seed) {
        Matrices.sameLength(x.length, y.length, "values");
        Matrices.sameLength(x.length, clusters.length, "cluster numbers");
        Check.openProbability(level, "confidence");
        if (replicates < 100) {
            throw new IllegalArgumentException("a band needs at least 100 draws: " + replicates);
        }
        List<int[]> members = members(clusters);
        if (members.size() < 2) {
            throw new IllegalArgumentException("a band needs at least two clusters");
        }
        UniformRandomProvider random = RandomSource.XO_SHI_RO_256_PP.create(seed);
        double[][] values = new double[at.length][replicates];
        for (int draw = 0; draw < replicates; draw++) {
            Isotonic fit = drawn(x, y, members, random);
            for (int k = 0; k < at.length; k++) {
                values[k][draw] = fit.value(at[k]);
            }
        }
        List<Interval> band = new ArrayList<>();
        int cut = (int) Math.floor(tail(level, members.size()) * replicates);
        for (double[] column : values) {
            Arrays.sort(column);
            band.add(new Interval(column[cut], column[replicates - 1 - cut]));
        }
        return List.copyOf(band);
    }

    // Plain percentiles are too narrow for few clusters: take those a t interval of that many would reach.
    private static double tail(double level, int clusters) {
        double t = Distributions.studentQuantile((1 + level) / 2, clusters - 1.0);
        return Distributions.normalCdf(-t * Math.sqrt(clusters / (clusters - 1.0)));
    }

    private static Isotonic drawn(double[] x, double[] y, List<int[]> members, UniformRandomProvider random) {
        double[] drawnX = new double[0];
        double[] drawnY = new double[0];
        for (int k = 0; k < members.size(); k++) {
            int[] cluster = members.get(random.nextInt(members.size()));
            int size = drawnX.length;
            drawnX = Arrays.copyOf(drawnX, size + cluster.length);
            drawnY = Arrays.copyOf(drawnY, size + cluster.length);
            for (int i = 0; i < cluster.length; i++) {
                drawnX[size + i] = x[cluster[i]];
                drawnY[size + i] = y[cluster[i]];
            }
        }
        return Isotonic.increasingIn(drawnX, drawnY);
    }

    private static List<int[]> members(int[] clusters) {
        Map<Integer, List<Integer>> byCluster = new LinkedHashMap<>();
        for (int i = 0; i < clusters.length; i++) {
            byCluster.computeIfAbsent(clusters[i], key -> new ArrayList<>()).add(i);
        }
        return byCluster.values().stream()
                .map(list -> list.stream().mapToInt(Integer::intValue).toArray())
                .toList();
    }
}
