package slowproof.trial.curve;

import java.util.Arrays;

/**
 * The shape of the error curve and its posterior, up to a constant, for one sign and one roughness.
 *
 * <p>In x = ln v the curve is eps = b + s exp(g), s = +1 or -1, g falling from node to node:
 * g_(k+1) = g_k - exp(h_k) dx_k, so the departure from the base b shrinks as the speed grows. Priors, the same
 * for every trial and wide against what benches show: b ~ N(0, 0.02), g_0 ~ N(ln 0.01, 2), h_0 ~ N(-1, 4),
 * h_(k+1) - h_k ~ N(0, kappa sqrt(dx)); a soft wall keeps h between -8 (flat) and 6 (a step). A start loss,
 * when it is fitted, ~ N(0, 1 mm).
 *
 * <p>Two sets of parameters describe the same curve. The mode is sought in z, the priors' standard normal
 * variables: b, start loss (if any), g_0, h_0, increments of h. Draws are made in q. It replaces b by the error at the
 * fastest node, b + s exp(g_n), which the readings fix where they cannot tell a base from a slow departure; and
 * the h of one gap between tested speeds by H = ln(descent of g over the gap) and the differences of h from the
 * gap's first: the readings fix the descents sharply, and in H that is a flat slice where in h it is a thin
 * curved sheet, on which a sampler crawls. Both changes have determinant 1, so the density is the same.
 *
 * <p>Holds the work space of its evaluations: one instance belongs to one thread.
 */
final class ShapeModel {
    static final double BASE_SD = 0.02;
    static final double START_SD_MM = 1;
    static final double G0_MEAN = Math.log(0.01);
    static final double G0_SD = 2;
    static final double H0_MEAN = -1;
    static final double H0_SD = 4;
    static final double H_LOW = -8;
    static final double H_HIGH = 6;
    // inverse variance of the soft wall
    private static final double WALL = 2;

    final FitData data;
    final int sign;
    final double kappa;
    final boolean startLoss;
    final int dimension;
    /** Place of g_0 in z and q; the parameters of the h follow. */
    final int offset;

    private final double[] scale;
    private final double[] inverseVariance;

    /** Curve at the nodes after an evaluation. */
    final double[] eps;
    /** Departure from the base at the nodes after an evaluation, at least 0. */
    final double[] departure;

    double base;
    double startMm;
    private double g0;
    private final double[] h;
    private final double[] slopeStep;
    private final double[] residual;
    private final double[] pull;
    private final double[] byH;
    private double basePull;
    private double startPull;
    private double g0Pull;

    ShapeModel(FitData data, int sign, double kappa, boolean startLoss) {
        this.data = data;
        this.sign = sign;
        this.kappa = kappa;
        this.startLoss = startLoss;
        int n = data.nodes;
        offset = startLoss ? 2 : 1;
        dimension = offset + n;
        scale = new double[n - 1];
        scale[0] = H0_SD;
        for (int k = 1; k < n - 1; k++) {
            scale[k] = kappa * Math.sqrt(0.5 * (data.dx[k - 1] + data.dx[k]));
        }
        inverseVariance = new double[n - 1];
        for (int k = 0; k < n - 1; k++) {
            inverseVariance[k] = 1 / (scale[k] * scale[k]);
        }
        eps = new double[n];
        departure = new double[n];
        h = new double[n - 1];
        slopeStep = new double[n - 1];
        byH = new double[n - 1];
        residual = new double[data.rows];
        pull = new double[n];
    }

    /** Returns minus the logarithm of the posterior at z, up to a constant. */
    double value(double[] z) {
        takeZ(z);
        return evaluate(z);
    }

    /** Returns {@link #value} and writes its gradient. */
    double gradient(double[] z, double[] out) {
        double value = value(z);
        pulls(false);
        out[0] = z[0] + BASE_SD * basePull;
        if (startLoss) {
            out[1] = z[1] + START_SD_MM * startPull;
        }
        out[offset] = z[offset] + G0_SD * g0Pull;
        // byH holds the derivative by h, prior included; z is cumulated to h, so its derivative is the sum from there
        // on
        double sum = 0;
        for (int k = data.nodes - 2; k >= 0; k--) {
            sum += byH[k];
            out[offset + 1 + k] = scale[k] * sum;
        }
        return value;
    }

    /** Returns minus the logarithm of the posterior at q, up to a constant, and writes its gradient. */
    double gradientQ(double[] q, double[] out) {
        takeQ(q);
        double value = evaluate(q);
        pulls(true);
        out[0] = BASE_SD * basePull;
        if (startLoss) {
            out[1] = q[1] + START_SD_MM * startPull;
        }
        out[offset] = q[offset] + G0_SD * g0Pull;
        int[] gap = data.gapStart;
        int at = offset + 1;
        for (int j = 0; j + 1 < gap.length; j++) {
            int from = gap[j];
            int to = gap[j + 1];
            double all = 0;
            double descent = 0;
            for (int k = from; k < to; k++) {
                all += byH[k];
                descent += slopeStep[k];
            }
            out[at + from] = all;
            double share = all / descent;
            for (int k = from + 1; k < to; k++) {
                out[at + k] = byH[k] - slopeStep[k] * share;
            }
        }
        return value;
    }

    /** Computes the curve at q. */
    void curveQ(double[] q) {
        takeQ(q);
        curve();
    }

    /** Returns q for z. */
    double[] toQ(double[] z) {
        value(z);
        double[] q = z.clone();
        q[0] = eps[data.nodes - 1] / BASE_SD;
        int[] gap = data.gapStart;
        for (int j = 0; j + 1 < gap.length; j++) {
            double sum = 0;
            for (int k = gap[j]; k < gap[j + 1]; k++) {
                sum += Math.exp(h[k] - h[gap[j]]) * data.dx[k];
                q[offset + 1 + k] = h[k] - h[gap[j]];
            }
            q[offset + 1 + gap[j]] = h[gap[j]] + Math.log(sum);
        }
        return q;
    }

    /** Returns the Gauss-Newton Hessian in q at z: the data's part from the Jacobian in z, the prior's exactly up to curvature. */
    double[][] hessianQ(double[] z, double[][] jacobianZ) {
        value(z);
        int n = dimension;
        int segments = data.nodes - 1;
        // columns: derivative of h by q, then of z by q through z_k = (h_k - h_(k-1)) / scale_k
        double[][] zByQ = new double[n][n];
        for (int i = 0; i <= offset; i++) {
            zByQ[i][i] = 1;
        }
        double last = sign * departure[data.nodes - 1] / BASE_SD;
        zByQ[0][offset] = -last * G0_SD;
        double[][] hByQ = new double[segments][segments];
        int[] gap = data.gapStart;
        for (int j = 0; j + 1 < gap.length; j++) {
            double descent = 0;
            for (int k = gap[j]; k < gap[j + 1]; k++) {
                descent += slopeStep[k];
            }
            for (int k = gap[j]; k < gap[j + 1]; k++) {
                hByQ[k][gap[j]] = 1;
                for (int i = gap[j] + 1; i < gap[j + 1]; i++) {
                    hByQ[k][i] = (i == k ? 1 : 0) - slopeStep[i] / descent;
                }
            }
        }
        for (int k = 0; k < segments; k++) {
            for (int i = 0; i < segments; i++) {
                zByQ[offset + 1 + k][offset + 1 + i] = (hByQ[k][i] - (k == 0 ? 0 : hByQ[k - 1][i])) / scale[k];
            }
        }
        for (int i = 0; i < segments; i++) {
            double sum = 0;
            for (int k = 0; k < segments; k++) {
                sum += slopeStep[k] * hByQ[k][i];
            }
            zByQ[0][offset + 1 + i] = last * sum;
        }
        int m = jacobianZ.length;
        double[][] all = new double[n + m][];
        System.arraycopy(zByQ, 0, all, 0, n);
        for (int j = 0; j < m; j++) {
            double[] row = new double[n];
            for (int i = 0; i < n; i++) {
                double s = jacobianZ[j][i];
                for (int k = 0; k < n; k++) {
                    row[k] += s * zByQ[i][k];
                }
            }
            all[n + j] = row;
        }
        double[][] out = new double[n][n];
        for (double[] row : all) {
            for (int i = 0; i < n; i++) {
                double s = row[i];
                if (s != 0) {
                    for (int k = 0; k < n; k++) {
                        out[i][k] += s * row[k];
                    }
                }
            }
        }
        return out;
    }

    /** Writes the derivative of the weighted predictions by z, row by row; {@link #value} must have been called. */
    void jacobian(double[][] out) {
        int n = data.nodes;
        for (int j = 0; j < data.rows; j++) {
            double[] row = out[j];
            int from = j * n;
            double all = 0;
            for (int k = 0; k < n; k++) {
                all += data.byRow[from + k];
            }
            row[0] = BASE_SD * all;
            if (startLoss) {
                row[1] = START_SD_MM * data.starts[j];
            }
            double faster = 0;
            double slopes = 0;
            for (int k = n - 2; k >= 0; k--) {
                faster += data.byRow[from + k + 1] * departure[k + 1];
                slopes -= sign * faster * slopeStep[k];
                row[offset + 1 + k] = scale[k] * slopes;
            }
            row[offset] = G0_SD * sign * (faster + data.byRow[from] * departure[0]);
        }
    }

    /** Returns a copy of the weighted residuals of the last evaluation: prediction less observation. */
    double[] residualsCopy() {
        return residual.clone();
    }

    /** Returns the z of a curve given by its base and its departure at the nodes, falling. */
    double[] parametersOf(double baseValue, double[] falling) {
        double[] z = new double[dimension];
        z[0] = baseValue / BASE_SD;
        z[offset] = (Math.log(falling[0]) - G0_MEAN) / G0_SD;
        double before = H0_MEAN;
        for (int k = 0; k < data.nodes - 1; k++) {
            double slope = Math.log(falling[k] / falling[k + 1]) / data.dx[k];
            double wanted = Math.max(-3, Math.min(5, Math.log(Math.max(slope, 1e-9))));
            z[offset + 1 + k] = (wanted - before) / scale[k];
            before = wanted;
        }
        return z;
    }

    private void takeZ(double[] z) {
        base = BASE_SD * z[0];
        startMm = startLoss ? START_SD_MM * z[1] : 0;
        g0 = G0_MEAN + G0_SD * z[offset];
        double sum = H0_MEAN;
        for (int k = 0; k < h.length; k++) {
            sum += scale[k] * z[offset + 1 + k];
            h[k] = sum;
            slopeStep[k] = Math.exp(sum) * data.dx[k];
        }
    }

    private void takeQ(double[] q) {
        startMm = startLoss ? START_SD_MM * q[1] : 0;
        g0 = G0_MEAN + G0_SD * q[offset];
        int[] gap = data.gapStart;
        int at = offset + 1;
        for (int j = 0; j + 1 < gap.length; j++) {
            int from = gap[j];
            int to = gap[j + 1];
            double sum = data.dx[from];
            for (int k = from + 1; k < to; k++) {
                double part = Math.exp(q[at + k]) * data.dx[k];
                slopeStep[k] = part;
                sum += part;
            }
            double logDescent = q[at + from];
            double factor = Math.exp(logDescent) / sum;
            double first = logDescent - Math.log(sum);
            h[from] = first;
            slopeStep[from] = factor * data.dx[from];
            for (int k = from + 1; k < to; k++) {
                h[k] = first + q[at + k];
                slopeStep[k] *= factor;
            }
        }
        double g = g0;
        for (double step : slopeStep) {
            g -= step;
        }
        base = BASE_SD * q[0] - sign * Math.exp(g);
    }

    /** Curve from base, g_0 and the descents. */
    private void curve() {
        double g = g0;
        double d = Math.exp(g);
        departure[0] = d;
        eps[0] = base + sign * d;
        for (int k = 0; k < slopeStep.length; k++) {
            g -= slopeStep[k];
            d = Math.exp(g);
            departure[k + 1] = d;
            eps[k + 1] = base + sign * d;
        }
    }

    /** Half the sum of squares of residuals, of the standardised parameters up to g_0, of the increments of h, and the walls. */
    private double evaluate(double[] parameters) {
        curve();
        residuals();
        double sum = base * base / (BASE_SD * BASE_SD);
        for (double r : residual) {
            sum += r * r;
        }
        for (int i = 1; i <= offset; i++) {
            sum += parameters[i] * parameters[i];
        }
        double before = H0_MEAN;
        for (int k = 0; k < h.length; k++) {
            double step = h[k] - before;
            sum += step * step * inverseVariance[k];
            before = h[k];
            double beyond = beyond(before);
            sum += WALL * beyond * beyond;
        }
        return 0.5 * sum;
    }

    private static double beyond(double h) {
        return h > H_HIGH ? h - H_HIGH : h < H_LOW ? h - H_LOW : 0;
    }

    /**
     * Derivatives of the last evaluation by base, start loss, g_0 (data only) and by h (data, increments and walls). With
     * the fastest node's error pinned, the first is by that error and holds the base's prior too, and the
     * fastest departure moves the base the other way.
     */
    private void pulls(boolean fastestPinned) {
        int n = data.nodes;
        Arrays.fill(pull, 0);
        startPull = 0;
        double[] design = data.byRow;
        for (int j = 0; j < data.rows; j++) {
            double r = residual[j];
            int from = j * n;
            int count = data.columnsOfRow[j];
            for (int k = 0; k < count; k++) {
                pull[k] += r * design[from + k];
            }
            startPull += r * data.starts[j];
        }
        basePull = fastestPinned ? base / (BASE_SD * BASE_SD) : 0;
        for (double p : pull) {
            basePull += p;
        }
        if (fastestPinned) {
            pull[n - 1] -= basePull;
        }
        double faster = 0;
        double increment = 0;
        for (int k = n - 2; k >= 0; k--) {
            faster += pull[k + 1] * departure[k + 1];
            double own = (h[k] - (k == 0 ? H0_MEAN : h[k - 1])) * inverseVariance[k];
            byH[k] = own - increment - sign * faster * slopeStep[k] + WALL * beyond(h[k]);
            increment = own;
        }
        g0Pull = sign * (faster + pull[0] * departure[0]);
    }

    private void residuals() {
        int m = data.rows;
        for (int j = 0; j < m; j++) {
            residual[j] = data.starts[j] * startMm - data.y[j];
        }
        double[] design = data.byColumn;
        for (int k = 0; k < data.nodes; k++) {
            double e = eps[k];
            int from = k * m;
            for (int j = data.firstRowOfColumn[k]; j < m; j++) {
                residual[j] += e * design[from + j];
            }
        }
    }
}
