package slowproof.metrology.sampling;

import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;

/** Evaluates a model at the points of a block; shared by the threads, immutable. */
final class SobolBlocks {
    private final ModelFunction model;
    private final UniformTransform transform;
    private final List<InputGroup> groups;
    private final int size;
    private final boolean random;
    private final ShiftedSobol sobol;

    SobolBlocks(ModelFunction model, UniformTransform transform, List<InputGroup> groups, SensitivityPlan plan) {
        this.model = model;
        this.transform = transform;
        this.groups = groups;
        this.size = plan.pointsPerBlock();
        this.random = plan.points() == Points.PSEUDO_RANDOM;
        // A and B are the two halves of one point: the two sets stay independent and each is even
        this.sobol = ShiftedSobol.of(2 * transform.uniforms(), random ? 1 : size);
    }

    SobolSums block(UniformRandomProvider generator) {
        int uniforms = transform.uniforms();
        double[] point = new double[2 * uniforms];
        double[] u = new double[uniforms];
        double[] x = new double[transform.quantities()];
        double[] shift = sobol.randomShift(generator, new double[2 * uniforms]);
        double[] a = new double[size];
        double[] b = new double[size];
        double[][] mixed = new double[groups.size()][size];
        for (int i = 0; i < size; i++) {
            if (random) {
                sobol.point(0, sobol.randomShift(generator, shift), point);
            } else {
                sobol.point(i, shift, point);
            }
            System.arraycopy(point, uniforms, u, 0, uniforms);
            b[i] = value(u, x);
            System.arraycopy(point, 0, u, 0, uniforms);
            a[i] = value(u, x);
            for (int g = 0; g < groups.size(); g++) {
                for (int j : groups.get(g).uniforms()) {
                    u[j] = point[uniforms + j];
                }
                mixed[g][i] = value(u, x);
                for (int j : groups.get(g).uniforms()) {
                    u[j] = point[j];
                }
            }
        }
        return new SobolSums(a, b, mixed);
    }

    private double value(double[] u, double[] x) {
        transform.apply(u, x);
        double value = model.value(x);
        if (!Double.isFinite(value)) {
            throw new ArithmeticException("the model gave " + value);
        }
        return value;
    }
}
