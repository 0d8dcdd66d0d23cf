package slowproof.trial.clock;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import slowproof.metrology.Distributions;
import slowproof.trial.clock.Blocks.Block;
import slowproof.trial.clock.ClockEstimator.Scatter;

/** Generalised least squares on differences of neighbouring block means, whose covariance is tri-diagonal. */
final class Solver {
    private static final int COLUMNS = Blocks.COLUMNS;

    /** A curve that falls by several percent does so over a few classes. */
    private static final double STEP_PRIOR = 0.02;

    private final int rows;
    private final double[][] x;
    private final double[] y;
    private final double[] way;
    private final double[] starts;
    private final double[] noise;
    private final double[] shared;
    private final int[] move;
    private final double[] priorSd;
    private final double[] scale = new double[COLUMNS];
    private final double[] beta = new double[COLUMNS];
    private final RealMatrix prior;
    private double[][] whitened = new double[0][];
    private double[] scaled = new double[COLUMNS];
    private RealMatrix normal = new Array2DRowRealMatrix(COLUMNS, COLUMNS);

    Solver(List<Block> blocks, double[] priorSd) {
        this.priorSd = priorSd;
        rows = blocks.size() - 1;
        x = new double[rows][COLUMNS];
        y = new double[rows];
        way = new double[rows];
        starts = new double[rows];
        noise = new double[rows];
        shared = new double[rows];
        move = new int[rows];
        for (int i = 0; i < rows; i++) {
            Block from = blocks.get(i);
            Block to = blocks.get(i + 1);
            for (int k = 0; k < COLUMNS; k++) {
                x[i][k] = to.x[k] - from.x[k];
            }
            y[i] = to.y - from.y;
            noise[i] = from.noiseMm2 + to.noiseMm2;
            shared[i] = to.noiseMm2;
            if (from.move == to.move) {
                way[i] = Math.abs(to.placeMm - from.placeMm);
                starts[i] = to.started - from.started;
            } else {
                way[i] = to.placeMm;
                starts[i] = to.started;
            }
            move[i] = to.move;
        }
        for (int k = 0; k < COLUMNS; k++) {
            double sum = 0;
            for (int i = 0; i < rows; i++) {
                sum += x[i][k] * x[i][k];
            }
            scale[k] = sum > 0 ? Math.sqrt(rows / sum) : 1;
        }
        prior = prior();
    }

    double[] beta() {
        return beta.clone();
    }

    void solve(Scatter scatter) {
        // Cholesky factor of the covariance: lower[i] on the diagonal, below[i] left of it
        double[] lower = new double[rows];
        double[] below = new double[rows];
        double[][] white = new double[rows][COLUMNS + 1];
        for (int i = 0; i < rows; i++) {
            double variance = variance(i, scatter);
            double off = i == 0 ? 0 : -shared[i - 1];
            below[i] = i == 0 ? 0 : off / lower[i - 1];
            lower[i] = Math.sqrt(Math.max(variance - below[i] * below[i], 1e-3 * variance));
            for (int k = 0; k < COLUMNS; k++) {
                double before = i == 0 ? 0 : white[i - 1][k];
                white[i][k] = (x[i][k] * scale[k] - below[i] * before) / lower[i];
            }
            double before = i == 0 ? 0 : white[i - 1][COLUMNS];
            white[i][COLUMNS] = (y[i] - below[i] * before) / lower[i];
        }
        RealMatrix gained = new Array2DRowRealMatrix(COLUMNS, COLUMNS);
        ArrayRealVector right = new ArrayRealVector(COLUMNS);
        for (int k = 0; k < COLUMNS; k++) {
            for (int l = 0; l <= k; l++) {
                double sum = 0;
                for (int i = 0; i < rows; i++) {
                    sum += white[i][k] * white[i][l];
                }
                gained.setEntry(k, l, sum);
                gained.setEntry(l, k, sum);
            }
            double sum = 0;
            for (int i = 0; i < rows; i++) {
                sum += white[i][k] * white[i][COLUMNS];
            }
            right.setEntry(k, sum);
        }
        normal = gained.add(prior);
        RealVector found =
                new CholeskyDecomposition(normal, 1e-9, 1e-300).getSolver().solve(right);
        whitened = white;
        scaled = found.toArray();
        for (int k = 0; k < COLUMNS; k++) {
            beta[k] = scaled[k] * scale[k];
        }
    }

    /** Returns the prior's part of the normal matrix, for scaled columns. */
    private RealMatrix prior() {
        RealMatrix result = new Array2DRowRealMatrix(COLUMNS, COLUMNS);
        for (int k = 0; k < COLUMNS; k++) {
            double sd = priorSd[k] / scale[k];
            result.addToEntry(k, k, 1 / (sd * sd));
            if (k > 0 && k < Blocks.KNOTS) {
                smooth(result, k);
            }
        }
        return result;
    }

    /** Neighbouring speed classes differ by little: the difference has a prior of its own. */
    private void smooth(RealMatrix matrix, int k) {
        double weight = 1 / (STEP_PRIOR * STEP_PRIOR);
        matrix.addToEntry(k, k, weight * scale[k] * scale[k]);
        matrix.addToEntry(k - 1, k - 1, weight * scale[k - 1] * scale[k - 1]);
        matrix.addToEntry(k, k - 1, -weight * scale[k] * scale[k - 1]);
        matrix.addToEntry(k - 1, k, -weight * scale[k] * scale[k - 1]);
    }

    /**
     * Returns the standard uncertainties of the last solution: by the model, or by the scores of whole passes where
     * these are larger. Few passes tell little of their own scatter, so that of the scores is widened by Student's t
     * (passes - 1 degrees of freedom) over its limit for many: twice the result holds about 95 % then, too. The correlation is
     * that of the scores, which is nearly that of the model.
     */
    Uncertainties uncertainties() {
        CholeskyDecomposition factor = new CholeskyDecomposition(normal, 1e-9, 1e-300);
        RealMatrix inverse = factor.getSolver().getInverse();
        RealMatrix scores = PassScores.sum(whitened, scaled, move, factor.getL());
        RealMatrix robust = inverse.multiply(scores.add(prior)).multiply(inverse);
        int passes = (int) Arrays.stream(move).distinct().count();
        double thin =
                Distributions.studentQuantile(0.975, Math.max(passes - 1, 1)) / Distributions.normalQuantile(0.975);
        double[] deviation = new double[COLUMNS];
        for (int k = 0; k < COLUMNS; k++) {
            double ofPasses = thin * thin * robust.getEntry(k, k);
            deviation[k] = scale[k] * Math.sqrt(Math.max(inverse.getEntry(k, k), ofPasses));
        }
        return new Uncertainties(
                deviation,
                robust.getEntry(Blocks.OFFSET, Blocks.DRIFT)
                        / Math.sqrt(robust.getEntry(Blocks.OFFSET, Blocks.OFFSET)
                                * robust.getEntry(Blocks.DRIFT, Blocks.DRIFT)));
    }

    /** How well the coefficients are known. */
    static final class Uncertainties {
        private final double[] standard;
        private final double offsetWithDrift;

        private Uncertainties(double[] standard, double offsetWithDrift) {
            this.standard = standard;
            this.offsetWithDrift = offsetWithDrift;
        }

        /** Returns the standard uncertainty of a coefficient. */
        double standard(int coefficient) {
            return standard[coefficient];
        }

        /** Returns the correlation of offset and drift, from -1 to 1. */
        double offsetWithDrift() {
            return offsetWithDrift;
        }
    }

    private double variance(int i, Scatter scatter) {
        return noise[i] + scatter.travelMm2PerMm() * way[i] + scatter.startMm2() * starts[i];
    }

    /**
     * Returns the scatters that the residuals show: squares less the rounding noise, divided by the way, weighted by
     * the inverse square of what is expected now.
     */
    Scatter scatterOfResiduals(Scatter now) {
        double travelSum = 0;
        double travelWeight = 0;
        double startSum = 0;
        double startWeight = 0;
        double begun = 0;
        double sinceStart = 0;
        double wayOfStart = 0;
        double noiseOfStart = 0;
        for (int i = 0; i < rows; i++) {
            double residual = y[i];
            for (int k = 0; k < COLUMNS; k++) {
                residual -= x[i][k] * beta[k];
            }
            double expected = variance(i, now);
            double weight = 1 / (expected * expected);
            double square = residual * residual - noise[i];
            begun += starts[i];
            sinceStart += residual;
            wayOfStart += way[i];
            noiseOfStart += starts[i] > 0 ? noise[i] - (begun > starts[i] ? 2 * shared[Math.max(i - 1, 0)] : 0) : 0;
            if (starts[i] == 0) {
                travelSum += weight * way[i] * square;
                travelWeight += weight * way[i] * way[i];
            }
            if (starts[i] > 0 && begun >= 1 - 1e-9) {
                startSum += sinceStart * sinceStart - noiseOfStart - now.travelMm2PerMm() * wayOfStart;
                startWeight++;
            }
            if (starts[i] == 0 || begun >= 1 - 1e-9) {
                begun = 0;
                sinceStart = 0;
                wayOfStart = 0;
                noiseOfStart = 0;
            }
        }
        double travel = travelWeight > 0 ? Math.max(travelSum / travelWeight, 1e-10) : now.travelMm2PerMm();
        double start = startWeight > 0 ? Math.max(startSum / startWeight, 1e-8) : now.startMm2();
        return new Scatter(travel, start);
    }
}
