package slowproof.metrology.uncertainty;

import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.AhrensDieterMarsagliaTsangGammaSampler;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import slowproof.metrology.Distributions;
import slowproof.metrology.sampling.VectorSource;

/**
 * Correlated inputs drawn together: jointly normal (JCGM 101:2008, 6.4.8, from memory), or jointly Student when all
 * are Student's with the same degrees of freedom, as for quantities that were observed together.
 */
final class JointInputs {

    private final int[] positions;
    private final double[] estimates;
    /** Row i times independent standard normal values is the deviation of input i. */
    private final double[][] root;
    /** Common degrees of freedom; infinite for jointly normal inputs. */
    private final double degreesOfFreedom;

    JointInputs(List<Input> inputs, List<Integer> group, CorrelationMatrix correlation) {
        positions = group.stream().mapToInt(Integer::intValue).toArray();
        estimates = new double[positions.length];
        root = correlation.root(group);
        degreesOfFreedom = inputs.get(positions[0]).distribution().degreesOfFreedom();
        for (int i = 0; i < positions.length; i++) {
            InputDistribution distribution = inputs.get(positions[i]).distribution();
            boolean canBeJoint = distribution instanceof Normal || distribution instanceof ScaledStudent;
            if (!canBeJoint || distribution.degreesOfFreedom() != degreesOfFreedom) {
                throw new IllegalArgumentException("correlated inputs can be drawn only if all are normal, or all are"
                        + " Student's with the same degrees of freedom: "
                        + group.stream().map(inputs::get).toList());
            }
            estimates[i] = distribution.estimate();
            for (int j = 0; j < root[i].length; j++) {
                root[i][j] *= distribution.standardUncertainty();
            }
        }
    }

    /** How many independent standard values, or uniform numbers, a draw consumes. */
    int uniforms() {
        return root[0].length + (isStudent() ? 1 : 0);
    }

    private boolean isStudent() {
        return degreesOfFreedom != Double.POSITIVE_INFINITY;
    }

    VectorSource start(UniformRandomProvider random) {
        ContinuousSampler normal = ZigguratSampler.NormalizedGaussian.of(random);
        double[] z = new double[root[0].length];
        if (!isStudent()) {
            return x -> {
                for (int j = 0; j < z.length; j++) {
                    z[j] = normal.sample();
                }
                place(z, 1, x);
            };
        }
        // chi-squared over its degrees of freedom, mean 1
        ContinuousSampler variance =
                AhrensDieterMarsagliaTsangGammaSampler.of(random, degreesOfFreedom / 2, 2 / degreesOfFreedom);
        return x -> {
            for (int j = 0; j < z.length; j++) {
                z[j] = normal.sample();
            }
            place(z, 1 / Math.sqrt(variance.sample()), x);
        };
    }

    /** Computes the draw that belongs to uniform numbers. */
    void apply(double[] u, int from, double[] x) {
        double[] z = new double[root[0].length];
        for (int j = 0; j < z.length; j++) {
            z[j] = Distributions.normalQuantile(u[from + j]);
        }
        double factor = isStudent()
                ? Math.sqrt(degreesOfFreedom / Distributions.chiSquaredQuantile(u[from + z.length], degreesOfFreedom))
                : 1;
        place(z, factor, x);
    }

    private void place(double[] z, double factor, double[] x) {
        for (int i = 0; i < positions.length; i++) {
            double[] row = root[i];
            double sum = 0;
            for (int j = 0; j < row.length; j++) {
                sum += row[j] * z[j];
            }
            x[positions[i]] = estimates[i] + factor * sum;
        }
    }
}
