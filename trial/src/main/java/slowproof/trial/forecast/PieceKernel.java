package slowproof.trial.forecast;

import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.SharedStateContinuousSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import slowproof.metrology.uncertainty.StreamedSource;

/**
 * Draws pieces: for each a draw of the curve, the reference's error, what else is shared, every start (more than four in
 * one draw of the same variance), the travel, two readings and the moment of the cut. The shared parts are drawn
 * anew for each piece too, because a forecast of the next piece does not know them.
 */
final class PieceKernel implements StreamedSource {
    private static final int STARTS_ONE_BY_ONE = 4;
    private static final double PER_STEP = 0x1.0p-32;

    private final PieceModel[] models;
    private final double[] upTo;

    PieceKernel(List<PieceModel> pieces) {
        models = pieces.toArray(new PieceModel[0]);
        upTo = new double[models.length];
        double sum = 0;
        for (int k = 0; k < models.length; k++) {
            sum += models[k].weight();
            upTo[k] = sum;
        }
    }

    @Override
    public void fill(UniformRandomProvider random, double[] values, double[] companions) {
        SharedStateContinuousSampler normal = ZigguratSampler.NormalizedGaussian.of(random);
        if (models.length == 1) {
            fill(models[0], random, normal, values, companions, 0, values.length);
            return;
        }
        for (int i = 0; i < values.length; i++) {
            double u = random.nextDouble() * upTo[upTo.length - 1];
            int k = 0;
            while (k < upTo.length - 1 && u >= upTo[k]) {
                k++;
            }
            fill(models[k], random, normal, values, companions, i, i + 1);
        }
    }

    private static void fill(
            PieceModel m,
            UniformRandomProvider random,
            SharedStateContinuousSampler normal,
            double[] values,
            double[] companions,
            int from,
            int to) {
        double[] curve = m.curveMm();
        double[] factor = m.scatterFactor();
        int separate = m.starts() <= STARTS_ONE_BY_ONE ? m.starts() : 1;
        double start = m.starts() <= STARTS_ONE_BY_ONE ? m.startMm() : m.startMm() * Math.sqrt(m.starts());
        double travel = m.travelMm();
        double reference = m.referenceUMm();
        double fixed = m.fixedUMm();
        double trigger = m.cutsOnSensor() ? m.triggerMm() : 0;
        double step = m.stepMm() * PER_STEP;
        double perLength = 1 / m.lengthMm();
        for (int n = from; n < to; n++) {
            long bits = random.nextLong();
            // upper half: the first reading; a further long gives the second reading and the draw of the curve
            long more = random.nextLong();
            int i = (int) (((more >>> 32) * curve.length) >>> 32);
            double readings = step * ((bits >>> 32) - (double) (more & 0xffffffffL));
            double scatter = travel * normal.sample();
            if (start > 0) {
                for (int s = 0; s < separate; s++) {
                    scatter += start * normal.sample();
                }
            }
            double error = curve[i] + factor[i] * scatter + readings;
            if (reference > 0) {
                error += reference * normal.sample();
            }
            if (fixed > 0) {
                error += fixed * normal.sample();
            }
            companions[n] = error;
            if (m.cutsOnSensor()) {
                double deviation = m.triggerBiasMm() - error / (1 + error * perLength);
                values[n] = trigger > 0 ? deviation + trigger * normal.sample() : deviation;
            } else {
                values[n] = error;
            }
        }
    }
}
