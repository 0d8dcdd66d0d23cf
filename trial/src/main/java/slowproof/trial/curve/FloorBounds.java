package slowproof.trial.curve;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Distributions;
import slowproof.trial.curve.FloorEstimate.Status;

/**
 * Floor of a trial that is too thin for a curve, or does not follow one: a bracket of two tested speeds.
 *
 * <p>At each tested speed the local error is bounded from the mean error of its passes. The ramps' travel between two
 * slower tested speeds has an error between theirs (all that is assumed of the shape); below the slowest tested
 * speed the curve is held constant. A speed holds when both bounds are inside the limit with a probability
 * of at least 0.975, it fails when both are outside with that probability. Read from the fastest speed
 * downwards, the first speed that does not hold ends the run (fixed sequence), so the risk of a wrong end
 * is that of one decision on either side.
 */
final class FloorBounds {
    private static final double SURE = 0.975;
    private static final double LIKELY = 0.95;
    // a plateau shorter than this share of the travel cannot tell the error at its speed
    private static final double LEAST_PLATEAU = 0.1;

    private FloorBounds() {}

    static FloorEstimate of(
            List<ConditionRow> rows, double[] speeds, RowVariances variances, CurveSettings settings, double limit) {
        int n = speeds.length;
        double[] low = new double[n];
        double[] high = new double[n];
        double[] inside = new double[n];
        double[] outside = new double[n];
        for (int k = 0; k < n; k++) {
            low[k] = Double.POSITIVE_INFINITY;
            high[k] = Double.NEGATIVE_INFINITY;
            inside[k] = 1;
            for (int j = 0; j < rows.size(); j++) {
                if (rows.get(j).speedMmPerS() == speeds[k]) {
                    if (!(variances.degreesOfFreedom[j] > 0)) {
                        // nothing was repeated, so nothing is shown
                        return answer(speeds, new double[n], new double[n]);
                    }
                    Bounds bounds = bounds(rows.get(j), speeds, k, low, high, variances, j, settings);
                    low[k] = Math.min(low[k], bounds.low - 2 * bounds.u);
                    high[k] = Math.max(high[k], bounds.high + 2 * bounds.u);
                    double nu = variances.degreesOfFreedom[j];
                    double atLow = insideProbability(bounds.low, bounds.u, nu, limit);
                    double atHigh = insideProbability(bounds.high, bounds.u, nu, limit);
                    inside[k] = Math.min(inside[k], Math.min(atLow, atHigh));
                    // where the bounds lie on either side of zero, the error may be zero
                    double most = bounds.low * bounds.high < 0 ? 1 : Math.max(atLow, atHigh);
                    outside[k] = Math.max(outside[k], 1 - most);
                }
            }
        }
        return answer(speeds, inside, outside);
    }

    private static FloorEstimate answer(double[] speeds, double[] inside, double[] outside) {
        int n = speeds.length;
        int holds = run(inside, SURE);
        int safe = run(inside, LIKELY);
        int fails = -1;
        for (int k = 0; k < holds; k++) {
            if (outside[k] >= SURE) {
                fails = k;
            }
        }
        Double proven = safe < n ? speeds[safe] : null;
        if (holds == 0) {
            return result(Status.HOLDS_THROUGHOUT, null, null, proven, null, speeds);
        }
        if (holds < n) {
            return result(
                    fails < 0 ? Status.UNDECIDED : Status.BRACKET,
                    fails < 0 ? null : speeds[fails],
                    speeds[holds],
                    proven,
                    null,
                    speeds);
        }
        boolean none = true;
        for (double p : outside) {
            none &= p >= SURE;
        }
        if (none) {
            return result(Status.DOES_NOT_HOLD, null, null, null, null, speeds);
        }
        if (outside[n - 1] >= SURE) {
            int[] band = band(inside);
            if (band != null) {
                return result(Status.HOLDS_IN_A_BAND, null, null, null, band, speeds);
            }
        }
        return result(Status.UNDECIDED, fails < 0 ? null : speeds[fails], null, null, null, speeds);
    }

    private static FloorEstimate result(
            Status status,
            @Nullable Double low,
            @Nullable Double high,
            @Nullable Double proven,
            int @Nullable [] band,
            double[] speeds) {
        return new FloorEstimate(
                status,
                null,
                low,
                high,
                proven,
                proven,
                band == null ? null : speeds[band[0]],
                band == null ? null : speeds[band[1]],
                speeds[0],
                speeds[speeds.length - 1],
                Double.NaN,
                Double.NaN);
    }

    /** Index of the slowest speed of the run from the fastest downwards that holds; the number of speeds when none does. */
    private static int run(double[] inside, double wanted) {
        int k = inside.length;
        while (k > 0 && inside[k - 1] >= wanted) {
            k--;
        }
        return k;
    }

    private static int @Nullable [] band(double[] inside) {
        int high = inside.length - 1;
        while (high >= 0 && inside[high] < SURE) {
            high--;
        }
        if (high < 0) {
            return null;
        }
        int low = high;
        while (low > 0 && inside[low - 1] >= SURE) {
            low--;
        }
        return new int[] {low, high};
    }

    private record Bounds(double low, double high, double u) {}

    /** Bounds of the local error at speed k from one row; low and high of the slower speeds are known. */
    private static Bounds bounds(
            ConditionRow row,
            double[] speeds,
            int k,
            double[] low,
            double[] high,
            RowVariances variances,
            int j,
            CurveSettings settings) {
        double plateau = row.spectrum().distanceFromMm(speeds[k]);
        double referenceU = settings.referenceAt(row.travelMm());
        if (!(plateau >= LEAST_PLATEAU * row.travelMm())) {
            return new Bounds(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, referenceU);
        }
        double u = Math.hypot(Math.sqrt(variances.ofMean[j]) / plateau, referenceU);
        if (k == 0) {
            double error = row.meanErrorMm() / row.travelMm();
            return new Bounds(error, error, u);
        }
        double least = low[0] * row.spectrum().distanceBelowMm(speeds[0]);
        double most = high[0] * row.spectrum().distanceBelowMm(speeds[0]);
        for (int i = 0; i + 1 < k; i++) {
            double part = row.spectrum().distanceBelowMm(speeds[i + 1])
                    - row.spectrum().distanceBelowMm(speeds[i]);
            least += part * Math.min(low[i], low[i + 1]);
            most += part * Math.max(high[i], high[i + 1]);
        }
        double last = row.spectrum().distanceBelowMm(speeds[k]) - row.spectrum().distanceBelowMm(speeds[k - 1]);
        double y = row.meanErrorMm();
        // the last part's error lies between that of the speed below and the one sought
        double[] candidates = {
            (y - least) / (plateau + last),
            (y - most) / (plateau + last),
            (y - least - last * low[k - 1]) / plateau,
            (y - most - last * high[k - 1]) / plateau
        };
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        for (double candidate : candidates) {
            lowest = Math.min(lowest, candidate);
            highest = Math.max(highest, candidate);
        }
        return new Bounds(lowest, highest, u);
    }

    private static double insideProbability(double error, double u, double nu, double limit) {
        if (!Double.isFinite(error)) {
            return 0;
        }
        return Distributions.studentCdf((limit - error) / u, nu) - Distributions.studentCdf((-limit - error) / u, nu);
    }
}
