package slowproof.metrology.regression;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/**
 * A penalised spline that is held to a shape: increasing or decreasing, convex or concave, or two of them together.
 *
 * <p>The weight of the penalty and the scatter come from the fit without the shape. The curve is the mode of the
 * posterior of that fit cut to the shape, a quadratic programme solved exactly; its band holds quantiles of draws from
 * the cut posterior (Gibbs sampling of a truncated normal). The draws follow from the seed.
 */
public final class ShapedSpline {
    private static final int WARM_UP = 500;
    private static final int THINNING = 4;

    private final SplineBasis basis;
    private final double[] coefficients;
    private final double[][] draws;

    private ShapedSpline(SplineBasis basis, double[] coefficients, double[][] draws) {
        this.basis = basis;
        this.coefficients = coefficients;
        this.draws = draws;
    }

    /**
     * Fits responses of equal, unknown scatter.
     *
     * @param basis the functions the curve is made of
     * @param shapes what the curve must be, at least one; neither both of increasing and decreasing nor both of convex
     *     and concave
     * @param x abscissae within the basis; not modified
     * @param y responses, one per abscissa; not modified
     * @param choice how the weight of the penalty is chosen
     * @param draws number of draws for the band, at least 100
     * @param seed of the draws
     * @return the curve
     * @throws IllegalArgumentException if an argument is out of its range, or the data do not determine the curve
     */
    public static ShapedSpline fit(
            SplineBasis basis,
            Set<Shape> shapes,
            double[] x,
            double[] y,
            SmoothingChoice choice,
            int draws,
            long seed) {
        if (draws < 100) {
            throw new IllegalArgumentException("a band needs at least 100 draws: " + draws);
        }
        double[][] constraints = constraints(basis, shapes);
        double[][] rows = basis.rows(x);
        PenalisedFit free = PenalisedLeastSquares.fit(rows, y, basis.roughness(), choice);
        PenalisedProblem.At problem =
                new PenalisedProblem(rows, y, basis.roughness(), false).at(FastMath.log(free.weight()));

        // With the triangle R of the stacked rows, u = R b - q has unit scatter times sigma about 0.
        double[][] stacked = problem.stacked();
        double[][] joined = new double[stacked.length][basis.size() + 1];
        double[] target = problem.target();
        for (int i = 0; i < stacked.length; i++) {
            System.arraycopy(stacked[i], 0, joined[i], 0, basis.size());
            joined[i][basis.size()] = target[i];
        }
        RealMatrix triangle = new QRDecomposition(new Array2DRowRealMatrix(joined, false), 0).getR();
        Whitened white = new Whitened(triangle, basis.size(), constraints);
        double[] mode = NonNegativeLeastSquares.shortest(white.g, white.h);
        double sigma = Math.sqrt(free.residualVariance());
        return new ShapedSpline(basis, white.coefficients(mode), white.draws(mode, sigma, draws, seed));
    }

    /**
     * Value of the curve.
     *
     * @param x within the basis
     * @return in the unit of the response
     * @throws IllegalArgumentException if x is outside the basis
     */
    public double value(double x) {
        return Matrices.dot(basis.row(x), coefficients);
    }

    /**
     * One coefficient of the curve.
     *
     * @param index from 0
     * @return in the unit of the response
     */
    public double coefficient(int index) {
        return coefficients[index];
    }

    /**
     * Pointwise posterior interval of the curve.
     *
     * @param level probability, above 0 and below 1
     * @param x within the basis
     * @return quantiles of the draws, in the unit of the response
     * @throws IllegalArgumentException if x is outside the basis or the level not between 0 and 1
     */
    public Interval band(double level, double x) {
        Check.openProbability(level, "probability");
        double[] row = basis.row(x);
        double[] values = Arrays.stream(draws)
                .mapToDouble(b -> Matrices.dot(row, b))
                .sorted()
                .toArray();
        int cut = (int) Math.floor((1 - level) / 2 * values.length);
        return new Interval(values[cut], values[values.length - 1 - cut]);
    }

    private static double[][] constraints(SplineBasis basis, Set<Shape> shapes) {
        if (shapes.isEmpty()
                || shapes.containsAll(List.of(Shape.INCREASING, Shape.DECREASING))
                || shapes.containsAll(List.of(Shape.CONVEX, Shape.CONCAVE))) {
            throw new IllegalArgumentException("shapes must be given and must not contradict each other: " + shapes);
        }
        List<double[]> rows = new ArrayList<>();
        for (Shape shape : shapes) {
            double[][] part = switch (shape) {
                case INCREASING -> basis.slopes();
                case DECREASING -> negative(basis.slopes());
                case CONVEX -> basis.bends();
                case CONCAVE -> negative(basis.bends());
            };
            rows.addAll(Arrays.asList(part));
        }
        return rows.toArray(new double[0][]);
    }

    private static double[][] negative(double[][] matrix) {
        double[][] result = Matrices.copy(matrix);
        for (double[] row : result) {
            for (int j = 0; j < row.length; j++) {
                row[j] = -row[j];
            }
        }
        return result;
    }

    /** The posterior in coordinates of equal, independent scatter, and the inequalities there: g u at least h. */
    private static final class Whitened {
        private final double[][] r;
        private final double[] q;
        private final double[][] g;
        private final double[] h;

        Whitened(RealMatrix triangle, int size, double[][] constraints) {
            r = new double[size][size];
            q = new double[size];
            for (int i = 0; i < size; i++) {
                for (int j = i; j < size; j++) {
                    r[i][j] = triangle.getEntry(i, j);
                }
                q[i] = triangle.getEntry(i, size);
            }
            g = new double[constraints.length][size];
            h = new double[constraints.length];
            for (int i = 0; i < constraints.length; i++) {
                // row of C R^-1, scaled to unit length
                double[] row = forward(constraints[i]);
                double length = Math.sqrt(Matrices.sumOfSquares(row));
                for (int j = 0; j < size; j++) {
                    g[i][j] = row[j] / length;
                }
                h[i] = -Matrices.dot(g[i], q);
            }
        }

        // b = R^-1 (u + q)
        double[] coefficients(double[] u) {
            int size = q.length;
            double[] b = new double[size];
            for (int i = size - 1; i >= 0; i--) {
                double sum = u[i] + q[i];
                for (int k = i + 1; k < size; k++) {
                    sum -= r[i][k] * b[k];
                }
                b[i] = sum / r[i][i];
            }
            return b;
        }

        double[][] draws(double[] start, double sigma, int count, long seed) {
            UniformRandomProvider random = RandomSource.XO_SHI_RO_256_PP.create(seed);
            double[] u = start.clone();
            double[] slack = new double[h.length];
            for (int i = 0; i < h.length; i++) {
                slack[i] = Math.max(0, Matrices.dot(g[i], u) - h[i]);
            }
            double[][] result = new double[count][];
            for (int sweep = 0; sweep < WARM_UP + count * THINNING; sweep++) {
                for (int j = 0; j < u.length; j++) {
                    renew(u, slack, j, sigma, random);
                }
                int kept = sweep - WARM_UP;
                if (kept >= 0 && kept % THINNING == 0) {
                    result[kept / THINNING] = coefficients(u);
                }
            }
            return result;
        }

        // draws coordinate j from its normal distribution, cut to where all slacks stay at least 0
        private void renew(double[] u, double[] slack, int j, double sigma, UniformRandomProvider random) {
            double low = Double.NEGATIVE_INFINITY;
            double high = Double.POSITIVE_INFINITY;
            for (int i = 0; i < slack.length; i++) {
                double slope = g[i][j];
                if (slope > 0) {
                    low = Math.max(low, u[j] - slack[i] / slope);
                } else if (slope < 0) {
                    high = Math.min(high, u[j] - slack[i] / slope);
                }
            }
            double drawn = sigma * truncatedNormal(low / sigma, high / sigma, random.nextDouble());
            double change = Math.max(low, Math.min(high, drawn)) - u[j];
            u[j] += change;
            for (int i = 0; i < slack.length; i++) {
                slack[i] = Math.max(0, slack[i] + g[i][j] * change);
            }
        }

        private static double truncatedNormal(double low, double high, double share) {
            // work in the lower tail, where probabilities keep their digits
            if (low > 0) {
                return -truncatedNormal(-high, -low, 1 - share);
            }
            double below = Distributions.normalCdf(low);
            double p = below + share * (Distributions.normalCdf(high) - below);
            return Distributions.normalQuantile(Math.min(1, Math.max(0, p)));
        }

        // solves z R = c for the row z
        private double[] forward(double[] c) {
            double[] z = new double[c.length];
            for (int i = 0; i < c.length; i++) {
                double sum = c[i];
                for (int k = 0; k < i; k++) {
                    sum -= z[k] * r[k][i];
                }
                z[i] = sum / r[i][i];
            }
            return z;
        }
    }
}
