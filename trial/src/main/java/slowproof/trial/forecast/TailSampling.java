package slowproof.trial.forecast;

import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.SharedStateContinuousSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import slowproof.metrology.sampling.BlockStreams;

/**
 * Share of pieces outside the tolerance by importance sampling: the normal part of each draw is moved to the edge of the
 * tolerance and every hit counts with the ratio of the two densities. It stays sure where plain draws hardly
 * ever fall outside.
 */
final class TailSampling {
    private TailSampling() {}

    /**
     * Returns the share and its standard uncertainty.
     *
     * @param pieces pieces, those without a tolerance count nothing
     * @param draws draws for each edge and piece
     * @param seed seed
     */
    static double[] share(List<PieceModel> pieces, int draws, long seed) {
        UniformRandomProvider random = BlockStreams.of(seed).next();
        SharedStateContinuousSampler normal = ZigguratSampler.NormalizedGaussian.of(random);
        double share = 0;
        double variance = 0;
        for (PieceModel piece : pieces) {
            Double lower = piece.lowerMm();
            Double upper = piece.upperMm();
            if (lower == null || upper == null) {
                continue;
            }
            for (int side = -1; side <= 1; side += 2) {
                double edge = side > 0 ? upper : -lower;
                double sum = 0;
                double squares = 0;
                for (int n = 0; n < draws; n++) {
                    int i = random.nextInt(piece.draws());
                    double spread = piece.spreadMm(i);
                    double all = Math.sqrt(spread * spread + square(piece.referenceUMm()) + square(piece.fixedUMm()));
                    double first = random.nextDouble();
                    double second = random.nextDouble();
                    double centre = side * piece.deviationMm(piece.curveMm()[i]) + piece.stepMm() * (first - second);
                    double distance = (edge - centre) / all;
                    double moved = Math.max(0, distance);
                    double z = moved + normal.sample();
                    double weight = z > distance ? Math.exp(moved * (0.5 * moved - z)) : 0;
                    sum += weight;
                    squares += weight * weight;
                }
                double mean = sum / draws;
                share += piece.weight() * mean;
                variance += square(piece.weight()) * Math.max(0, squares / draws - mean * mean) / draws;
            }
        }
        return new double[] {share, Math.sqrt(variance)};
    }

    private static double square(double x) {
        return x * x;
    }
}
