package slowproof.trial.curve;

import org.jspecify.annotations.Nullable;
import slowproof.metrology.Distributions;

/**
 * The plain scale error of the fast plateau, which a factor in the sensor can take out: the mean of the curve at the
 * two fastest tested speeds. With one stroke it is the scale error plus the start loss at this stroke.
 *
 * @param value scale error (ratio), or null when there is no plateau
 * @param standardUncertainty its standard uncertainty, the reference's in full, or null
 * @param slopeProbability probability of a difference between the two fastest speeds as large as found if there is none,
 *     0 to 1; NaN when it cannot be tested
 * @param corrected the curve after correction by 1/(1 + value), or null; its uncertainty holds that of the factor and
 *     the reference's in full, because the reference's error went into the factor
 * @param reason why there is no scale error, or null
 */
public record ScaleError(
        @Nullable Double value,
        @Nullable Double standardUncertainty,
        double slopeProbability,
        @Nullable ErrorCurve corrected,
        @Nullable CurveReason reason) {
    private static final double LEVEL = 0.05;

    static ScaleError of(CurveResult result) {
        int n = result.speeds.length;
        if (n < 2) {
            return absent(Double.NaN, CurveReason.ONE_SPEED);
        }
        double nu = result.pointwise.degreesOfFreedom;
        if (!(nu > 0)) {
            return absent(Double.NaN, CurveReason.NO_REPEATS);
        }
        // the reference's error is the same at both speeds and cancels in their difference
        double difference = result.pointwise.errors[n - 1] - result.pointwise.errors[n - 2];
        double variance = result.pointwise.covariance.getEntry(n - 1, n - 1)
                + result.pointwise.covariance.getEntry(n - 2, n - 2)
                - 2 * result.pointwise.covariance.getEntry(n - 1, n - 2);
        double probability = 2 * (1 - Distributions.studentCdf(Math.abs(difference) / Math.sqrt(variance), nu));
        if (probability < LEVEL) {
            return absent(probability, CurveReason.NO_PLATEAU);
        }
        CurveDraws draws = result.draws();
        if (draws == null) {
            return absent(probability, CurveReason.NO_REPEATS);
        }
        double[] scale = new double[draws.count()];
        double mean = 0;
        for (int i = 0; i < scale.length; i++) {
            scale[i] = 0.5 * (draws.atSpeed(i, result.speeds[n - 1]) + draws.atSpeed(i, result.speeds[n - 2]));
            mean += scale[i] / scale.length;
        }
        double squares = 0;
        for (double value : scale) {
            squares += (value - mean) * (value - mean);
        }
        ErrorCurve curve = result.curve();
        return new ScaleError(
                mean,
                Math.sqrt(squares / (scale.length - 1)),
                probability,
                curve == null
                        ? null
                        : new ErrorCurve(curve.draws().corrected(mean), curve.testedMmPerS(), curve.lackOfFit()),
                null);
    }

    private static ScaleError absent(double probability, CurveReason reason) {
        return new ScaleError(null, null, probability, null, reason);
    }
}
