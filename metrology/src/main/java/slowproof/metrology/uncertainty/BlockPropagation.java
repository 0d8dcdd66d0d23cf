package slowproof.metrology.uncertainty;

import org.apache.commons.rng.UniformRandomProvider;
import slowproof.metrology.sampling.ModelFunction;
import slowproof.metrology.sampling.Points;
import slowproof.metrology.sampling.ShiftedSobol;
import slowproof.metrology.sampling.UniformTransform;
import slowproof.metrology.sampling.VectorSource;

/** Draws and evaluates blocks; shared by the threads, immutable. */
final class BlockPropagation {
    private static final int SMALLEST_BLOCK = 10_000;

    private final UncertaintyModel model;
    private final UniformTransform transform;
    private final ShiftedSobol sobol;
    private final boolean random;
    private final int size;

    BlockPropagation(UncertaintyModel model, MonteCarloSettings settings) {
        this.model = model;
        this.transform = model.transform();
        this.random = settings.points() == Points.PSEUDO_RANDOM;
        int least =
                Math.max(SMALLEST_BLOCK, (int) Math.min(1e9, Math.ceil(100 / (1 - settings.coverageProbability()))));
        this.size = random || Integer.bitCount(least) == 1 ? least : 2 * Integer.highestOneBit(least);
        this.sobol = ShiftedSobol.of(transform.uniforms(), random ? 1 : size);
    }

    int blocksFor(long trials) {
        long blocks = (trials + size - 1) / size;
        if (blocks * size > Integer.MAX_VALUE - 8) {
            throw new IllegalArgumentException("more trials than one array of values can hold: " + trials);
        }
        return (int) blocks;
    }

    PropagatedBlock block(UniformRandomProvider generator) {
        double[] values = new double[size];
        if (random) {
            draw(model.source(generator), model.function(), values);
        } else {
            place(sobol.randomShift(generator, new double[sobol.dimensions()]), values);
        }
        for (double value : values) {
            if (!Double.isFinite(value)) {
                throw new ArithmeticException("the model gave " + value + " for a draw of its inputs");
            }
        }
        return new PropagatedBlock(values);
    }

    private void draw(VectorSource source, ModelFunction function, double[] values) {
        double[] x = new double[transform.quantities()];
        for (int i = 0; i < values.length; i++) {
            source.next(x);
            values[i] = function.value(x);
        }
    }

    private void place(double[] shift, double[] values) {
        double[] u = new double[transform.uniforms()];
        double[] x = new double[transform.quantities()];
        for (int i = 0; i < values.length; i++) {
            sobol.point(i, shift, u);
            transform.apply(u, x);
            values[i] = model.function().value(x);
        }
    }
}
