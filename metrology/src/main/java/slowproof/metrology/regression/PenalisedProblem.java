package slowproof.metrology.regression;

import java.util.Arrays;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;

/** Data and penalty of one penalised fit, reduced to as many rows as columns, for many trial weights. */
final class PenalisedProblem {
    // Above this variance of the log weight the data say nothing about it.
    private static final double LARGEST_LOG_WEIGHT_VARIANCE = 9;

    // Squares of residuals this small against those of the responses are rounding.
    private static final double RELATIVE_ROUNDING = 1e-28;

    private final double[][] penalty;
    private final double[][] reduced;
    private final double[] reducedY;
    private final double outside;
    private final double rounding;
    private final int rowCount;
    private final int columnCount;
    private final boolean scaleKnown;

    PenalisedProblem(double[][] rows, double[] y, double[][] penalty, boolean scaleKnown) {
        check(rows, y, penalty);
        this.penalty = Matrices.copy(penalty);
        this.scaleKnown = scaleKnown;
        rowCount = rows.length;
        columnCount = rows[0].length;
        if (!scaleKnown && rowCount <= columnCount - penalty.length) {
            throw new IllegalArgumentException(rowCount + " responses leave no scatter to estimate beside "
                    + (columnCount - penalty.length) + " coefficients without penalty");
        }
        // keeps the logarithm finite when the data lie on the curve exactly
        rounding = Math.max(Double.MIN_NORMAL, RELATIVE_ROUNDING * Matrices.sumOfSquares(y));
        if (rowCount <= columnCount + 1) {
            reduced = Matrices.copy(rows);
            reducedY = y.clone();
            outside = 0;
            return;
        }
        // The triangle of [X y] holds all that the data say: R b - z, and what no b can explain.
        double[][] joined = new double[rowCount][columnCount + 1];
        for (int i = 0; i < rowCount; i++) {
            System.arraycopy(rows[i], 0, joined[i], 0, columnCount);
            joined[i][columnCount] = y[i];
        }
        RealMatrix r = new QRDecomposition(new Array2DRowRealMatrix(joined, false), 0).getR();
        reduced = new double[columnCount][columnCount];
        reducedY = new double[columnCount];
        for (int i = 0; i < columnCount; i++) {
            for (int j = i; j < columnCount; j++) {
                reduced[i][j] = r.getEntry(i, j);
            }
            reducedY[i] = r.getEntry(i, columnCount);
        }
        outside = r.getEntry(columnCount, columnCount) * r.getEntry(columnCount, columnCount);
    }

    At at(double logWeight) {
        return new At(logWeight);
    }

    /** Logarithm of the weight at which data and penalty count about alike. */
    double balance() {
        double data = Arrays.stream(reduced).mapToDouble(Matrices::sumOfSquares).sum();
        double bending =
                Arrays.stream(penalty).mapToDouble(Matrices::sumOfSquares).sum();
        return data > 0 ? FastMath.log(data / bending) : -FastMath.log(bending);
    }

    /** Variance of the log weight from the curvature of the restricted likelihood. */
    double logWeightVariance(double logWeight) {
        double step = 0.1;
        double curvature = (at(logWeight - step).criterion(SmoothingChoice.REML)
                        - 2 * at(logWeight).criterion(SmoothingChoice.REML)
                        + at(logWeight + step).criterion(SmoothingChoice.REML))
                / (step * step);
        // the criterion is twice the negative log-likelihood
        return curvature > 0 ? Math.min(2 / curvature, LARGEST_LOG_WEIGHT_VARIANCE) : LARGEST_LOG_WEIGHT_VARIANCE;
    }

    private static void check(double[][] rows, double[] y, double[][] penalty) {
        if (rows.length == 0 || rows[0].length == 0 || penalty.length == 0) {
            throw new IllegalArgumentException("a penalised fit needs a row, a column and a penalty");
        }
        Matrices.sameLength(rows.length, y.length, "responses");
        Check.allFinite(y, "responses");
        for (double[] row : rows) {
            Matrices.sameLength(rows[0].length, row.length, "entries in each row");
            Check.allFinite(row, "entries of the design");
        }
        for (double[] row : penalty) {
            Matrices.sameLength(rows[0].length, row.length, "entries in each row of the penalty");
            Check.allFinite(row, "entries of the penalty");
        }
        if (penalty.length > rows[0].length) {
            throw new IllegalArgumentException(
                    penalty.length + " rows of the penalty are more than " + rows[0].length + " coefficients");
        }
    }

    /** The problem at one weight. */
    final class At {
        private final double logWeight;
        private final double[][] stacked;
        private final double[] target;
        private final OrthogonalSolver solver;
        private final double[] coefficients;
        private final double penalisedSum;

        private At(double logWeight) {
            this.logWeight = logWeight;
            double root = FastMath.exp(logWeight / 2);
            stacked = new double[reduced.length + penalty.length][];
            target = Arrays.copyOf(reducedY, stacked.length);
            for (int i = 0; i < stacked.length; i++) {
                stacked[i] = i < reduced.length
                        ? reduced[i]
                        : Arrays.stream(penalty[i - reduced.length])
                                .map(d -> d * root)
                                .toArray();
            }
            if (stacked.length < columnCount) {
                throw new IllegalArgumentException("data and penalty do not determine the coefficients");
            }
            solver = new OrthogonalSolver(stacked, null);
            OrthogonalSolver.Solution solution = solver.solve(target);
            coefficients = solution.coefficients();
            penalisedSum = Math.max(outside + Matrices.sumOfSquares(solution.residuals()), rounding);
        }

        // smaller is better
        double criterion(SmoothingChoice choice) {
            if (choice == SmoothingChoice.REML) {
                int free = rowCount - (columnCount - penalty.length);
                double misfit = scaleKnown ? penalisedSum : free * FastMath.log(penalisedSum);
                return misfit + solver.logDeterminant() - penalty.length * logWeight;
            }
            double effective = effectiveParameters(solver.inverseNormalMatrix());
            double left = rowCount - effective;
            return scaleKnown
                    ? residualSum() + 2 * effective
                    : FastMath.log(residualSum()) - 2 * FastMath.log(Math.max(left, Double.MIN_NORMAL));
        }

        PenalisedFit fit(double logWeightVariance) {
            double[][] inverse = solver.inverseNormalMatrix();
            double effective = effectiveParameters(inverse);
            double scale = 1;
            if (!scaleKnown) {
                scale = penalisedSum / (rowCount - (columnCount - penalty.length));
            }
            double[][] covariance = Matrices.copy(inverse);
            double[] drift = drift(inverse);
            double[][] widened = new double[columnCount][columnCount];
            for (int i = 0; i < columnCount; i++) {
                for (int j = 0; j < columnCount; j++) {
                    covariance[i][j] *= scale;
                    widened[i][j] = covariance[i][j] + logWeightVariance * drift[i] * drift[j];
                }
            }
            return new PenalisedFit(
                    coefficients.clone(),
                    covariance,
                    widened,
                    FastMath.exp(logWeight),
                    effective,
                    scale,
                    scaleKnown ? Double.POSITIVE_INFINITY : rowCount - effective);
        }

        /** Rows of the reduced data and the weighted penalty, one under the other. */
        double[][] stacked() {
            return Matrices.copy(stacked);
        }

        /** What the stacked rows should give: reduced responses, then zeros. */
        double[] target() {
            return target.clone();
        }

        // change of the coefficients with the log weight: -weight (X'X + weight D'D)^-1 D'D b
        private double[] drift(double[][] inverse) {
            double weight = FastMath.exp(logWeight);
            double[] pull = new double[columnCount];
            for (double[] row : penalty) {
                double bend = Matrices.dot(row, coefficients);
                for (int j = 0; j < columnCount; j++) {
                    pull[j] -= weight * row[j] * bend;
                }
            }
            double[] result = new double[columnCount];
            for (int i = 0; i < columnCount; i++) {
                result[i] = Matrices.dot(inverse[i], pull);
            }
            return result;
        }

        private double effectiveParameters(double[][] inverse) {
            double sum = 0;
            for (double[] row : reduced) {
                sum += Matrices.quadraticForm(row, inverse);
            }
            return sum;
        }

        private double residualSum() {
            double sum = outside + rounding;
            for (int i = 0; i < reduced.length; i++) {
                double residual = reducedY[i] - Matrices.dot(reduced[i], coefficients);
                sum += residual * residual;
            }
            return sum;
        }
    }
}
