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
            while (hasNonPositive(target, free)) {
                double step = 1;
                for (int j = 0; j < size; j++) {
                    if (free[j] && target[j] <= 0) {
                        step = Math.min(step, x[j] / (x[j] - target[j]));
                    }
                }
                for (int j = 0; j < size; j++) {
                    if (free[j]) {
                        x[j] += step * (target[j] - x[j]);
                        if (x[j] <= 0 || (target[j] <= 0 && x[j] <= RELATIVE_TOLERANCE)) {
                            x[j] = 0;
                            free[j] = false;
                        }
                    }
                }
                target = onFree(rows, b, free);
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

    private static boolean hasNonPositive(double[] target, boolean[] free) {
        for (int j = 0; j < target.length; j++) {
            if (free[j] && target[j] <= 0) {
                return true;
            }
        }
        return false;
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
