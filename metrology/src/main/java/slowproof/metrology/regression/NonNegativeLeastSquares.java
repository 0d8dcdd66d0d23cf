package slowproof.metrology.regression;

import java.util.ArrayList;
import java.util.List;

/**
 * Least squares with coefficients of at least 0, and with linear inequalities (C. Lawson, R. Hanson, Solving Least
 * Squares Problems (1974), chapter 23: algorithms NNLS and LDP, from memory).
 */
final class NonNegativeLeastSquares {
    private static final double RELATIVE_TOLERANCE = 1e-12;

    private NonNegativeLeastSquares() {}

    /** The x with every entry at least 0 that brings A x closest to b; A given by rows. */
    static double[] solve(double[][] rows, double[] b) {
        int size = rows[0].length;
        boolean[] free = new boolean[size];
        double[] x = new double[size];
        double[] limit = new double[size];
        for (int j = 0; j < size; j++) {
            double sum = 0;
            for (double[] row : rows) {
                sum += row[j] * row[j];
            }
            limit[j] = RELATIVE_TOLERANCE * Math.sqrt(sum * Matrices.sumOfSquares(b));
        }
        for (int round = 0; round < 10 * size + 10; round++) {
            int entering = steepest(rows, b, x, free, limit);
            if (entering < 0) {
                return x;
            }
            free[entering] = true;
            double[] target = onFree(rows, b, free);
            int blocking = blocking(x, target, free);
            while (blocking >= 0) {
                // as far towards the target as the first coefficient that reaches 0 allows; that one is then held
                double step = share(x[blocking], target[blocking]);
                for (int j = 0; j < size; j++) {
                    x[j] += step * (target[j] - x[j]);
                }
                x[blocking] = 0;
                free[blocking] = false;
                target = onFree(rows, b, free);
                blocking = blocking(x, target, free);
            }
            x = target;
        }
        throw new IllegalStateException("non-negative least squares does not settle");
    }

    /**
     * The shortest u with G u at least h in every row.
     *
     * @throws IllegalStateException if no u satisfies the inequalities
     */
    static double[] shortest(double[][] g, double[] h) {
        int size = g[0].length;
        double[][] rows = new double[size + 1][g.length];
        for (int i = 0; i < g.length; i++) {
            for (int j = 0; j < size; j++) {
                rows[j][i] = g[i][j];
            }
            rows[size][i] = h[i];
        }
        double[] unit = new double[size + 1];
        unit[size] = 1;
        double[] dual = solve(rows, unit);
        double[] residual = new double[size + 1];
        for (int j = 0; j <= size; j++) {
            residual[j] = Matrices.dot(rows[j], dual) - unit[j];
        }
        // the last entry is minus the squared length of the residual; 0 means that no point satisfies all rows
        if (!(residual[size] < -RELATIVE_TOLERANCE)) {
            throw new IllegalStateException("no point satisfies all inequalities");
        }
        double[] u = new double[size];
        for (int j = 0; j < size; j++) {
            u[j] = -residual[j] / residual[size];
        }
        return u;
    }

    // index of the fixed variable along which the fit improves most, or -1
    private static int steepest(double[][] rows, double[] b, double[] x, boolean[] free, double[] limit) {
        double[] slope = new double[x.length];
        for (int i = 0; i < rows.length; i++) {
            double residual = b[i] - Matrices.dot(rows[i], x);
            for (int j = 0; j < x.length; j++) {
                slope[j] += rows[i][j] * residual;
            }
        }
        int best = -1;
        for (int j = 0; j < x.length; j++) {
            if (!free[j] && slope[j] > limit[j] && (best < 0 || slope[j] > slope[best])) {
                best = j;
            }
        }
        return best;
    }

    // the free variable that reaches 0 first on the way from x to the target, or -1 when none does
    private static int blocking(double[] x, double[] target, boolean[] free) {
        int first = -1;
        double least = Double.POSITIVE_INFINITY;
        for (int j = 0; j < x.length; j++) {
            if (free[j] && target[j] <= 0) {
                double share = share(x[j], target[j]);
                if (first < 0 || share < least) {
                    least = share;
                    first = j;
                }
            }
        }
        return first;
    }

    // how far from x, at least 0, to a target of at most 0 the value 0 lies
    private static double share(double x, double target) {
        return x == 0 ? 0 : x / (x - target);
    }

    // least squares on the free variables, the others 0
    private static double[] onFree(double[][] rows, double[] b, boolean[] free) {
        List<Integer> columns = new ArrayList<>();
        for (int j = 0; j < free.length; j++) {
            if (free[j]) {
                columns.add(j);
            }
        }
        double[] result = new double[free.length];
        if (columns.isEmpty()) {
            return result;
        }
        double[][] part = new double[rows.length][columns.size()];
        for (int i = 0; i < rows.length; i++) {
            for (int k = 0; k < columns.size(); k++) {
                part[i][k] = rows[i][columns.get(k)];
            }
        }
        double[] solved = new OrthogonalSolver(part, null).solve(b).coefficients();
        for (int k = 0; k < columns.size(); k++) {
            result[columns.get(k)] = solved[k];
        }
        return result;
    }
}
