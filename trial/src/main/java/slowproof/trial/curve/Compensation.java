package slowproof.trial.curve;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import slowproof.trial.scatter.PassError;

/**
 * What would remain of the error of a pass at one condition if it were corrected by what was found there. It is
 * proven on passes that the correction has not seen: each cycle is corrected by a correction from the others
 * (leave one cycle out; the curve's answer to a changed mean is taken as straight, by its leverage). It holds for
 * the same surface, stroke, acceleration and temperature only.
 *
 * @param speedMmPerS speed in mm/s
 * @param accelerationMmPerS2 acceleration in mm/s², NaN when unknown
 * @param travelMm mean travel in mm
 * @param asFound size of the mean relative error (ratio)
 * @param repeatability standard deviation of one pass relative to the travel (ratio), or null when nothing was repeated
 * @param unseen root mean square of what the correction leaves on passes it has not seen (ratio), or null
 * @param sensitivity standard uncertainty from the variation of speed: the largest |eps(v +- dv) - eps(v)| as half-width
 *     of a rectangle, divided by sqrt(3) (ratio)
 * @param remaining root sum of squares of unseen, sensitivity and the reference's uncertainty (ratio), or null
 * @param reason why compensation is void, or null
 */
public record Compensation(
        double speedMmPerS,
        double accelerationMmPerS2,
        double travelMm,
        double asFound,
        @Nullable Double repeatability,
        @Nullable Double unseen,
        double sensitivity,
        @Nullable Double remaining,
        @Nullable CurveReason reason) {

    static List<Compensation> of(CurveResult result, double speedTolerance, double dropoutLimitPct) {
        if (!(speedTolerance >= 0 && speedTolerance <= 0.5)) {
            throw new IllegalArgumentException("variation of speed must be 0 to 0.5: " + speedTolerance);
        }
        if (!(dropoutLimitPct >= 0)) {
            throw new IllegalArgumentException("dropout limit must be at least 0 %: " + dropoutLimitPct);
        }
        List<Compensation> out = new ArrayList<>();
        for (int j = 0; j < result.rows.size(); j++) {
            ConditionRow row = result.rows.get(j);
            double travel = row.travelMm();
            double leverage = result.leverage == null ? 1 : result.leverage[j];
            Double unseen = unseen(row, leverage);
            double sensitivity = sensitivity(result, row.speedMmPerS(), speedTolerance);
            double scatter = result.variances.passScatterMm[j];
            double reference = result.settings.referenceAt(travel);
            out.add(new Compensation(
                    row.speedMmPerS(),
                    row.block().passes().get(0).accelerationMmPerS2(),
                    travel,
                    Math.abs(row.meanErrorMm()) / travel,
                    Double.isNaN(scatter) ? null : scatter / travel,
                    unseen,
                    sensitivity,
                    unseen == null
                            ? null
                            : Math.sqrt(unseen * unseen + sensitivity * sensitivity + reference * reference),
                    unseen == null
                            ? CurveReason.TOO_FEW_CYCLES
                            : exceeds(row, dropoutLimitPct) ? CurveReason.DROPOUTS : null));
        }
        return List.copyOf(out);
    }

    private static boolean exceeds(ConditionRow row, double limitPct) {
        return row.block().passes().stream().anyMatch(pass -> pass.dropoutPct() > limitPct);
    }

    /** Root mean square of the passes' errors less a prediction without their own cycle, relative to the travel. */
    private static @Nullable Double unseen(ConditionRow row, double leverage) {
        Map<String, List<PassError>> cycles = new TreeMap<>();
        String open = "";
        List<PassError> passes = row.block().passes();
        for (int i = 0; i < passes.size(); i++) {
            PassError pass = passes.get(i);
            boolean closes = i > 0
                    && pass.direction() < 0
                    && passes.get(i - 1).direction() > 0
                    && passes.get(i - 1).series().equals(pass.series())
                    && passes.get(i - 1).indexInSeries() == pass.indexInSeries() - 1;
            if (!closes) {
                open = pass.series() + "/" + pass.indexInSeries();
            }
            cycles.computeIfAbsent(open, c -> new ArrayList<>()).add(pass);
        }
        if (cycles.size() < 2) {
            return null;
        }
        int n = passes.size();
        double mean = row.meanErrorMm();
        double squares = 0;
        for (List<PassError> cycle : cycles.values()) {
            double own = 0;
            for (PassError pass : cycle) {
                own += pass.errorMm();
            }
            double others = (n * mean - own) / (n - cycle.size());
            double prediction = mean + leverage * (others - mean);
            for (PassError pass : cycle) {
                squares += (pass.errorMm() - prediction) * (pass.errorMm() - prediction);
            }
        }
        return Math.sqrt(squares / n) / row.travelMm();
    }

    private static double sensitivity(CurveResult result, double speed, double tolerance) {
        double here = error(result, speed);
        double down = Math.abs(error(result, speed * (1 - tolerance)) - here);
        double up = Math.abs(error(result, speed * (1 + tolerance)) - here);
        return Math.max(down, up) / Math.sqrt(3);
    }

    /** Curve, or the tested errors joined by straight lines in ln v, held at the ends of the tested range. */
    private static double error(CurveResult result, double speed) {
        double slowest = result.speeds[0];
        double fastest = result.speeds[result.speeds.length - 1];
        double within = Math.min(fastest, Math.max(slowest, speed));
        ErrorCurve curve = result.curve();
        if (curve != null) {
            return curve.at(within).error();
        }
        double[] errors = result.pointwise.errors;
        for (int k = 0; k + 1 < errors.length; k++) {
            if (within <= result.speeds[k + 1]) {
                double share = Math.log(within / result.speeds[k]) / Math.log(result.speeds[k + 1] / result.speeds[k]);
                return errors[k] + share * (errors[k + 1] - errors[k]);
            }
        }
        return errors[errors.length - 1];
    }
}
