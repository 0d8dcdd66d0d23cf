package slowproof.trial.curve;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Distributions;
import slowproof.trial.scatter.VarianceComponents;
import slowproof.trial.scatter.WithinScatter;

/**
 * Variances of the mean errors of the conditions, without the reference's uncertainty, which is common to all.
 *
 * <p>Passes to and fro that share readings: s_0^2/n + s_R^2 (4n - 2)/n^2 with s_0^2 = s^2 - 2 s_R^2 cut at 0; passes
 * on the same way: s^2/n, which errs on the safe side there. s is pooled over the conditions; when Bartlett's
 * test rejects equal scatter at 1 %, it is smoothed over ln v instead; where no direction was repeated, it is
 * taken over both directions. A component between series adds its
 * variance over the number of series. Where the scatter is less than half a step of the readings, the
 * rounding no longer averages and the mean is known to resolution^2/6 at best.
 */
final class RowVariances {
    private static final double EQUALITY_LEVEL = 0.01;
    // width of the smoothing kernel in ln v: about a ladder step of 1.5 to either side
    private static final double SMOOTHING = 0.4;
    // least standard deviation of a mean in mm: no reading is better than a nanometre
    private static final double LEAST_MM = 1e-6;

    /** Variance of each row's mean in mm². */
    final double[] ofMean;
    /** Standard deviation of one pass of each row in mm, readings included; NaN when nothing was repeated. */
    final double[] passScatterMm;
    /** Degrees of freedom behind each row's scatter; 0 when nothing was repeated. */
    final double[] degreesOfFreedom;
    /** Scatter pooled over the rows, or null when nothing was repeated. */
    final @Nullable WithinScatter pooled;
    /** Whether scatter differs between conditions, so that it was smoothed over speed. */
    final boolean unequal;
    /** Whether any direction was repeated; else the scatter is taken over both directions and is no repeatability. */
    final boolean repeated;
    /** Whether the readings are too coarse for the scatter in any row. */
    final boolean coarse;

    RowVariances(List<ConditionRow> rows, VarianceComponents components, CurveSettings settings) {
        int m = rows.size();
        ofMean = new double[m];
        passScatterMm = new double[m];
        degreesOfFreedom = new double[m];
        double[] squares = new double[m];
        int[] freedom = new int[m];
        int all = 0;
        for (int j = 0; j < m; j++) {
            squares[j] = rows.get(j).within().sumMm2();
            freedom[j] = rows.get(j).within().degreesOfFreedom();
            all += freedom[j];
        }
        repeated = all > 0;
        if (!repeated) {
            for (int j = 0; j < m; j++) {
                WithinScatter.Squares loose =
                        WithinScatter.squaresOverDirections(rows.get(j).block());
                squares[j] = loose.sumMm2();
                freedom[j] = loose.degreesOfFreedom();
                all += freedom[j];
            }
        }
        pooled = all == 0
                ? null
                : WithinScatter.pooled(squares, freedom, CurveSettings.roundingVarianceMm2(settings.stepMm()));
        boolean apart = components.startScatterMm() != null;
        unequal = !apart && pooled != null && pooled.equalityProbability() < EQUALITY_LEVEL;
        double reading = settings.readingVarianceMm2();
        double step = settings.resolutionMm();
        double series = components.seriesScatterMm() == null
                ? 0
                : components.seriesScatterMm().value();
        boolean anyCoarse = false;
        for (int j = 0; j < m; j++) {
            ConditionRow row = rows.get(j);
            int n = row.passes();
            double mean;
            if (pooled == null) {
                passScatterMm[j] = Double.NaN;
                mean = 2 * reading;
            } else {
                double variance;
                if (apart) {
                    variance = components.passVarianceMm2(row.starts(), row.travelMm(), reading) + 2 * reading;
                    degreesOfFreedom[j] = all;
                } else if (unequal) {
                    variance = smoothed(rows, squares, freedom, j);
                } else {
                    variance = pooled.standardDeviationMm() * pooled.standardDeviationMm();
                    degreesOfFreedom[j] = all;
                }
                passScatterMm[j] = Math.sqrt(variance);
                mean = row.alternating()
                        ? Math.max(0, variance - 2 * reading) / n + reading * row.endpointFactor()
                        : variance / n;
                if (passScatterMm[j] < step / 2) {
                    anyCoarse = true;
                    mean = Math.max(mean, 2 * reading);
                }
            }
            mean += series * series / row.block().series();
            ofMean[j] = Math.max(mean, LEAST_MM * LEAST_MM);
        }
        coarse = anyCoarse;
    }

    /**
     * Returns the variances widened for the few degrees of freedom, so that a normal interval of 95 % is as wide
     * as Student's, and by a thousandth of each row's own departure from the fastest: a steep curve is not
     * known better than that on a bench, whatever the repeats say.
     */
    double[] forNormalFit(List<ConditionRow> rows) {
        double[] out = new double[ofMean.length];
        ConditionRow fastest = rows.get(rows.size() - 1);
        for (int j = 0; j < out.length; j++) {
            double t = Distributions.studentQuantile(0.975, Math.max(1, degreesOfFreedom[j]))
                    / Distributions.normalQuantile(0.975);
            ConditionRow row = rows.get(j);
            double departure = row.meanErrorMm() - fastest.meanErrorMm() * row.travelMm() / fastest.travelMm();
            out[j] = ofMean[j] * t * t + 1e-6 * departure * departure;
        }
        return out;
    }

    private double smoothed(List<ConditionRow> rows, double[] squares, int[] freedom, int at) {
        double x = Math.log(rows.get(at).speedMmPerS());
        double sum = 0;
        double weights = 0;
        double squaredWeights = 0;
        for (int j = 0; j < squares.length; j++) {
            double u = (Math.log(rows.get(j).speedMmPerS()) - x) / SMOOTHING;
            double w = Math.exp(-0.5 * u * u);
            sum += w * squares[j];
            weights += w * freedom[j];
            squaredWeights += w * w * freedom[j];
        }
        degreesOfFreedom[at] = weights * weights / squaredWeights;
        return sum / weights;
    }
}
