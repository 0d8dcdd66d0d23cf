package slowproof.metrology.uncertainty;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.function.IntPredicate;
import org.hipparchus.linear.EigenDecompositionSymmetric;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RectangularCholeskyDecomposition;

/** Correlation coefficients of the inputs of a model, by position. Immutable. */
final class CorrelationMatrix {

    // rounding of given coefficients may push an eigenvalue of a singular matrix a little below zero
    private static final double LEAST_EIGENVALUE = -1e-9;
    private static final double NEGLIGIBLE_PIVOT = 1e-12;

    private final double[][] r;

    private CorrelationMatrix(double[][] r) {
        this.r = r;
    }

    static CorrelationMatrix of(List<String> names, List<Correlation> correlations) {
        double[][] r = new double[names.size()][names.size()];
        for (int i = 0; i < r.length; i++) {
            r[i][i] = 1;
        }
        for (Correlation correlation : correlations) {
            int i = index(names, correlation.first());
            int j = index(names, correlation.second());
            r[i][j] = correlation.coefficient();
            r[j][i] = correlation.coefficient();
        }
        return new CorrelationMatrix(r);
    }

    private static int index(List<String> names, String name) {
        int index = names.indexOf(name);
        if (index < 0) {
            throw new IllegalArgumentException("no input quantity is called " + name + "; there are " + names);
        }
        return index;
    }

    double get(int i, int j) {
        return r[i][j];
    }

    /** Refuses coefficients that no set of quantities can have, such as 0.9, 0.9 and -0.9. */
    void requirePossible() {
        double[] eigenvalues = new EigenDecompositionSymmetric(MatrixUtils.createRealMatrix(r)).getEigenvalues();
        for (double eigenvalue : eigenvalues) {
            if (eigenvalue < LEAST_EIGENVALUE) {
                throw new IllegalArgumentException(
                        "the correlation coefficients contradict each other: smallest eigenvalue of their matrix is "
                                + eigenvalue);
            }
        }
    }

    /**
     * Splits positions into sets that are linked by correlation, directly or through others; a position that is
     * left out links nothing.
     */
    List<List<Integer>> groups(IntPredicate takesPart) {
        List<List<Integer>> groups = new ArrayList<>();
        boolean[] seen = new boolean[r.length];
        for (int start = 0; start < r.length; start++) {
            if (!seen[start] && takesPart.test(start)) {
                groups.add(linkedWith(start, seen, takesPart));
            }
        }
        return groups;
    }

    private List<Integer> linkedWith(int start, boolean[] seen, IntPredicate takesPart) {
        List<Integer> group = new ArrayList<>();
        Deque<Integer> open = new ArrayDeque<>(List.of(start));
        seen[start] = true;
        while (!open.isEmpty()) {
            int i = open.remove();
            group.add(i);
            for (int j = 0; j < r.length; j++) {
                if (r[i][j] != 0 && !seen[j] && takesPart.test(j)) {
                    seen[j] = true;
                    open.add(j);
                }
            }
        }
        group.sort(null);
        return group;
    }

    /** A matrix whose product with independent standard values has the correlations of the group. */
    double[][] root(List<Integer> group) {
        int[] rows = group.stream().mapToInt(Integer::intValue).toArray();
        RealMatrix part = MatrixUtils.createRealMatrix(r).getSubMatrix(rows, rows);
        return new RectangularCholeskyDecomposition(part, NEGLIGIBLE_PIVOT)
                .getRootMatrix()
                .getData();
    }
}
