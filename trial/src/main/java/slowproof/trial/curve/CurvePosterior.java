package slowproof.trial.curve;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.NormalizedGaussianSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;

/**
 * The posterior of the falling-departure curve: both signs and several roughnesses, weighted by their marginal
 * likelihoods, each sampled in proportion.
 */
final class CurvePosterior {
    private static final double[] ROUGHNESS = {1, 2, 4};
    private static final double LEAST_WEIGHT = 0.02;
    // odd constant that spreads component numbers over the seeds (golden ratio in 64 bits)
    private static final long SEED_STEP = 0x9E3779B97F4A7C15L;

    final CurveDraws draws;

    private CurvePosterior(CurveDraws draws) {
        this.draws = draws;
    }

    /** Returns the modes of both signs and all roughnesses. */
    static List<ShapeMode> modes(FitData data, boolean startLoss) {
        return IntStream.range(0, 2 * ROUGHNESS.length)
                .parallel()
                .mapToObj(i -> ShapeFit.mode(new ShapeModel(
                        data, i < ROUGHNESS.length ? 1 : -1, ROUGHNESS[i % ROUGHNESS.length], startLoss)))
                .toList();
    }

    /** Returns the mode with the largest marginal likelihood. */
    static ShapeMode best(List<ShapeMode> modes) {
        ShapeMode best = modes.get(0);
        for (ShapeMode mode : modes) {
            if (mode.logEvidence > best.logEvidence) {
                best = mode;
            }
        }
        return best;
    }

    /**
     * Samples the mixture of the modes.
     *
     * @param reference standard uncertainty of the reference: the part common to all lengths (ratio), and a part per
     *     pass in mm that goes into the start loss; both are one error
     */
    static CurvePosterior sample(List<ShapeMode> modes, double[] reference, CurveSettings settings) {
        int count = settings.draws();
        double[] weight = weights(modes);
        double[][] eps = new double[count][];
        double[] base = new double[count];
        int[] sign = new int[count];
        double[] start = new double[count];
        double[] shift = new double[count];
        UniformRandomProvider common = RandomSource.XO_SHI_RO_256_PP.create(settings.seed());
        NormalizedGaussianSampler normal = ZigguratSampler.NormalizedGaussian.of(common);
        double[] standard = new double[count];
        for (int i = 0; i < count; i++) {
            standard[i] = normal.sample();
            shift[i] = reference[0] * standard[i];
        }
        int[] begin = new int[weight.length + 1];
        double reached = 0;
        for (int i = 0; i < weight.length; i++) {
            reached += weight[i];
            begin[i + 1] = weight[i] == 0 ? begin[i] : (int) Math.min(count, Math.round(reached * count));
        }
        // every mode has draws of its own, so that they can be sampled side by side
        IntStream.range(0, weight.length).filter(i -> weight[i] > 0).parallel().forEach(i -> {
            int[] at = {begin[i]};
            new ShapeSampler(modes.get(i), RandomSource.XO_SHI_RO_256_PP.create(settings.seed() + (i + 1) * SEED_STEP))
                    .sample(begin[i + 1] - begin[i], model -> {
                        int d = at[0]++;
                        double[] curve = model.eps.clone();
                        for (int k = 0; k < curve.length; k++) {
                            curve[k] += shift[d];
                        }
                        eps[d] = curve;
                        base[d] = model.base + shift[d];
                        sign[d] = model.sign;
                        start[d] = model.startMm + reference[1] * standard[d];
                    });
        });
        double[] nodes = modes.get(0).model.data.nodeMmPerS;
        return new CurvePosterior(new CurveDraws(nodes, eps, base, sign, start, shift));
    }

    /** As {@link #sample}, but draws that a store has kept are taken from there. */
    static CurvePosterior sample(List<ShapeMode> modes, double[] reference, CurveSettings settings, DrawStore store) {
        if (store == DrawStore.NONE) {
            return sample(modes, reference, settings);
        }
        FitData data = modes.get(0).model.data;
        double[] from = hangsOn(data, modes.get(0).model.startLoss, reference, settings);
        double[] kept = store.find(from);
        if (kept != null && kept.length == CurveDraws.numbers(data.nodes, settings.draws())) {
            return new CurvePosterior(CurveDraws.of(data.nodeMmPerS, settings.draws(), kept));
        }
        CurvePosterior drawn = sample(modes, reference, settings);
        store.keep(from, drawn.draws.numbers());
        return drawn;
    }

    /** Returns everything that the draws hang on: the modes come from the data alone. */
    private static double[] hangsOn(FitData data, boolean startLoss, double[] reference, CurveSettings settings) {
        return Stream.of(
                        new double[] {data.rows, data.nodes, data.gapStart.length, startLoss ? 1 : 0},
                        new double[] {Double.longBitsToDouble(settings.seed()), settings.draws()},
                        reference,
                        Arrays.stream(data.gapStart).asDoubleStream().toArray(),
                        data.nodeMmPerS,
                        data.starts,
                        data.y,
                        data.byRow)
                .flatMapToDouble(Arrays::stream)
                .toArray();
    }

    /** Returns the weights by marginal likelihood; small ones are dropped, the rest adds up to 1. */
    private static double[] weights(List<ShapeMode> modes) {
        double top = best(modes).logEvidence;
        double[] weight = new double[modes.size()];
        double sum = 0;
        for (int i = 0; i < weight.length; i++) {
            weight[i] = Math.exp(modes.get(i).logEvidence - top);
            sum += weight[i];
        }
        double kept = 0;
        for (int i = 0; i < weight.length; i++) {
            weight[i] = weight[i] / sum < LEAST_WEIGHT ? 0 : weight[i] / sum;
            kept += weight[i];
        }
        for (int i = 0; i < weight.length; i++) {
            weight[i] /= kept;
        }
        return weight;
    }
}
