package slowproof.trial.forecast;

import java.util.Objects;
import java.util.random.RandomGenerator;
import org.jspecify.annotations.Nullable;
import slowproof.trial.curve.CurveDraws;
import slowproof.trial.curve.TestDraws;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.scatter.Estimate;
import slowproof.trial.scatter.VarianceComponents;

/** Evidence of made-up figures, so that forecasts can be checked by hand. */
final class Evidence {
    private Evidence() {}

    /** A curve that is known exactly: straight in ln v between two speeds; no uncertainty of any kind but the scatter. */
    static LineEvidence exact(
            double slow, double slowError, double fast, double fastError, double startSd, double travelSd) {
        double[][] eps = new double[400][];
        for (int i = 0; i < eps.length; i++) {
            eps[i] = new double[] {slowError, fastError};
        }
        return of(
                TestDraws.of(new double[] {slow, fast}, eps, new double[400], new double[400]),
                startSd,
                travelSd,
                1e9,
                0.001);
    }

    static LineEvidence of(CurveDraws draws, double startSd, double travelSd, double sharpness, double stepMm) {
        double narrow = 1 + 1 / sharpness;
        return new LineEvidence(
                "felt",
                draws,
                null,
                true,
                new VarianceComponents(
                        0.1,
                        40,
                        new Estimate(startSd, startSd / narrow, startSd * narrow),
                        new Estimate(travelSd, travelSd / narrow, travelSd * narrow),
                        null,
                        null,
                        VarianceComponents.Method.RESTRICTED_LIKELIHOOD),
                new Estimate(0, -0.01, 0.01),
                draws.nodeMmPerS(0),
                draws.nodeMmPerS(draws.nodes() - 1),
                100.0,
                2000.0,
                100,
                3000,
                new LineEvidence.Fast(0, 0.01, 1000),
                stepMm,
                0,
                null,
                null,
                true,
                null,
                null);
    }

    /** A random curve with uncertainty and reference. */
    static LineEvidence random(RandomGenerator random) {
        int nodes = 6;
        double[] speeds = new double[nodes];
        for (int k = 0; k < nodes; k++) {
            speeds[k] = 8 * Math.pow(400.0 / 8, (double) k / (nodes - 1));
        }
        double depth = 0.02 * random.nextDouble() * (random.nextBoolean() ? 1 : -1);
        double knee = 15 + 60 * random.nextDouble();
        double u = 5e-5 + 2e-4 * random.nextDouble();
        double ref = 1e-5 + 5e-5 * random.nextDouble();
        double[][] eps = new double[2000][nodes];
        double[] shift = new double[2000];
        double[] start = new double[2000];
        for (int i = 0; i < eps.length; i++) {
            shift[i] = ref * random.nextGaussian();
            double common = u * random.nextGaussian();
            start[i] = -0.02 + 0.005 * random.nextGaussian();
            for (int k = 0; k < nodes; k++) {
                eps[i][k] = depth * Math.exp(-speeds[k] / knee) + common + u * random.nextGaussian() + shift[i];
            }
        }
        return of(
                TestDraws.of(speeds, eps, start, shift),
                0.02 + 0.08 * random.nextDouble(),
                0.01 + 0.03 * random.nextDouble(),
                3,
                0.02 + 0.1 * random.nextDouble());
    }

    static <T> T there(@Nullable T value) {
        return Objects.requireNonNull(value);
    }
}
