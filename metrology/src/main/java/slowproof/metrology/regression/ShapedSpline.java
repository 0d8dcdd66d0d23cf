package slowproof.metrology.regression;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.AhrensDieterMarsagliaTsangGammaSampler;
import org.apache.commons.rng.sampling.distribution.SharedStateContinuousSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.SemiDefinitePositiveCholeskyDecomposition;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;
import slowproof.metrology.Interval;

/**
 * A penalised spline that is held to a shape: increasing or decreasing, convex or concave, or two of them together.
 *
 * <p>The weight of the penalty and the scatter come from the fit without the shape. The curve is the one of that shape
 * closest to the data and the penalty, a quadratic programme solved exactly. Its band holds quantiles of draws from the
 * posterior of the free fit, each moved to the nearest curve of the shape (L. Lin, D. Dunson, Biometrika 101 (2014) 303,
 * from memory); cutting the posterior to the shape instead would push the curve away from level and straight stretches.
 * The draws follow from the seed.
 */
public final class ShapedSpline {
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
        return new ShapedSpline(basis, white.coefficients(mode), white.draws(free, draws, seed));
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
     * Pointwise interval of the curve.
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

        double[][] draws(PenalisedFit free, int count, long seed) {
            UniformRandomProvider random = RandomSource.XO_SHI_RO_256_PP.create(seed);
            ZigguratSampler.NormalizedGaussian normal = ZigguratSampler.NormalizedGaussian.of(random);
            double nu = free.degreesOfFreedom();
            SharedStateContinuousSampler square = AhrensDieterMarsagliaTsangGammaSampler.of(random, nu / 2, 2 / nu);
            RealMatrix root = new SemiDefinitePositiveCholeskyDecomposition(
                            new Array2DRowRealMatrix(free.widenedCovariance(), false), 0)
                    .getL();
            double[][] result = new double[count][];
            double[] z = new double[q.length];
            for (int draw = 0; draw < count; draw++) {
                for (int j = 0; j < z.length; j++) {
                    z[j] = normal.sample();
                }
                double scale = 1 / Math.sqrt(square.sample());
                double[] departure = root.operate(z);
                for (int j = 0; j < z.length; j++) {
                    departure[j] *= scale;
                }
                result[draw] = coefficients(nearest(timesTriangle(departure)));
            }
            return result;
        }

        // the point of the shape nearest to u
        private double[] nearest(double[] u) {
            double[] missing = h.clone();
            boolean inside = true;
            for (int i = 0; i < missing.length; i++) {
                missing[i] -= Matrices.dot(g[i], u);
                inside &= missing[i] <= 0;
            }
            if (inside) {
                return u;
            }
            double[] move = NonNegativeLeastSquares.shortest(g, missing);
            for (int j = 0; j < u.length; j++) {
                move[j] += u[j];
            }
            return move;
        }

        // R d
        private double[] timesTriangle(double[] d) {
            double[] u = new double[d.length];
            for (int i = 0; i < u.length; i++) {
                for (int j = i; j < u.length; j++) {
                    u[i] += r[i][j] * d[j];
                }
            }
            return u;
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
