package slowproof.trial.curve;

import java.util.Arrays;

/**
 * Finds the mode of the posterior by Levenberg-Marquardt with the exact Jacobian, from two starts: the middle of the
 * prior, and the shape that the condition means suggest. With one start alone a fit of an irregular design
 * now and then stops at a curve that holds nowhere.
 */
final class ShapeFit {
    private static final int ITERATIONS = 120;
    private static final int DAMPINGS = 12;
    private static final double CONVERGED = 1e-7;

    private ShapeFit() {}

    /** Returns the better of the modes reached from the two starts. */
    static ShapeMode mode(ShapeModel model) {
        double[] plain = new double[model.dimension];
        plain[0] = fastestMean(model.data) / ShapeModel.BASE_SD;
        double first = improve(model, plain);
        double[] guided = guess(model);
        double second = improve(model, guided);
        return new ShapeMode(model, first <= second ? plain : guided);
    }

    private static double fastestMean(FitData data) {
        int j = data.rows - 1;
        return data.y[j] / weightOf(data, j);
    }

    private static double weightOf(FitData data, int j) {
        double travel = 0;
        for (int k = 0; k < data.nodes; k++) {
            travel += data.byRow[j * data.nodes + k];
        }
        return travel;
    }

    /** Departures of the condition means from the extreme one, made falling with speed, as the start of the fit. */
    private static double[] guess(ShapeModel model) {
        FitData data = model.data;
        double[] speed = new double[data.rows];
        double[] relative = new double[data.rows];
        double least = Double.POSITIVE_INFINITY;
        double noise = Double.POSITIVE_INFINITY;
        for (int j = 0; j < data.rows; j++) {
            double weight = weightOf(data, j);
            speed[j] = data.x[Math.max(0, data.columnsOfRow[j] - 1)];
            relative[j] = model.sign * data.y[j] / weight;
            least = Math.min(least, relative[j]);
            noise = Math.min(noise, 1 / weight);
        }
        double tiny = 0.3 * noise;
        double[] falling = new double[data.nodes];
        double above = tiny;
        int j = data.rows - 1;
        int fasterRow = -1;
        double[] atRow = new double[data.rows];
        for (int i = data.rows - 1; i >= 0; i--) {
            above = Math.max(above * 1.001, relative[i] - least + tiny);
            atRow[i] = above;
        }
        for (int k = data.nodes - 1; k >= 0; k--) {
            while (j >= 0 && speed[j] > data.x[k] + 1e-12) {
                fasterRow = j--;
            }
            if (j < 0) {
                falling[k] = atRow[0];
            } else if (fasterRow < 0) {
                falling[k] = atRow[j];
            } else {
                double share = (data.x[k] - speed[j]) / (speed[fasterRow] - speed[j]);
                falling[k] = Math.exp((1 - share) * Math.log(atRow[j]) + share * Math.log(atRow[fasterRow]));
            }
        }
        return model.parametersOf(model.sign * least, falling);
    }

    /** Walks {@code z} downhill in place and returns the value reached. */
    private static double improve(ShapeModel model, double[] z) {
        int m = model.data.rows;
        int n = model.dimension;
        double[][] jacobian = new double[m][n];
        double[][] gram = new double[m][m];
        double[][] factor = new double[m][m];
        double[] gradient = new double[n];
        double[] trial = new double[n];
        double[] reduced = new double[m];
        double damping = 1e-2;
        double value = model.gradient(z, gradient);
        for (int iteration = 0; iteration < ITERATIONS; iteration++) {
            model.jacobian(jacobian);
            for (int i = 0; i < m; i++) {
                double sum = 0;
                for (int k = 0; k < n; k++) {
                    sum += jacobian[i][k] * gradient[k];
                }
                reduced[i] = sum;
                for (int j = 0; j <= i; j++) {
                    double product = 0;
                    for (int k = 0; k < n; k++) {
                        product += jacobian[i][k] * jacobian[j][k];
                    }
                    gram[i][j] = product;
                }
            }
            boolean better = false;
            double gain = 0;
            for (int attempt = 0; attempt < DAMPINGS && !better; attempt++) {
                step(jacobian, gram, factor, gradient, reduced, 1 + damping, z, trial);
                double next = model.value(trial);
                if (next < value) {
                    gain = value - next;
                    System.arraycopy(trial, 0, z, 0, n);
                    better = true;
                    damping = Math.max(1e-6, damping / 5);
                } else {
                    damping *= 6;
                }
            }
            if (!better || gain < CONVERGED * (1 + Math.abs(value))) {
                break;
            }
            value = model.gradient(z, gradient);
        }
        return model.value(z);
    }

    /**
     * Solves (alpha I + J'J) step = -gradient through the small matrix alpha I + J J' (Woodbury), since there are
     * fewer rows than parameters.
     */
    private static void step(
            double[][] jacobian,
            double[][] gram,
            double[][] factor,
            double[] gradient,
            double[] reduced,
            double alpha,
            double[] z,
            double[] out) {
        int m = gram.length;
        double[] solved = Arrays.copyOf(reduced, m);
        for (int i = 0; i < m; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = gram[i][j] + (i == j ? alpha : 0);
                for (int k = 0; k < j; k++) {
                    sum -= factor[i][k] * factor[j][k];
                }
                factor[i][j] = i == j ? Math.sqrt(Math.max(sum, alpha * 1e-12)) : sum / factor[j][j];
            }
        }
        for (int i = 0; i < m; i++) {
            for (int k = 0; k < i; k++) {
                solved[i] -= factor[i][k] * solved[k];
            }
            solved[i] /= factor[i][i];
        }
        for (int i = m - 1; i >= 0; i--) {
            for (int k = i + 1; k < m; k++) {
                solved[i] -= factor[k][i] * solved[k];
            }
            solved[i] /= factor[i][i];
        }
        for (int k = 0; k < z.length; k++) {
            out[k] = gradient[k];
        }
        for (int i = 0; i < m; i++) {
            double s = solved[i];
            double[] row = jacobian[i];
            for (int k = 0; k < z.length; k++) {
                out[k] -= s * row[k];
            }
        }
        for (int k = 0; k < z.length; k++) {
            out[k] = z[k] - out[k] / alpha;
        }
    }
}
