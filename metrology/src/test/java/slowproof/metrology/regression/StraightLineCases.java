package slowproof.metrology.regression;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import slowproof.metrology.reference.CaseEvaluator;
import slowproof.metrology.reference.CaseTable;
import slowproof.metrology.reference.ReferenceCase;

/** Published straight lines: calibration lines, and lines with errors in both axes. */
public final class StraightLineCases implements CaseEvaluator {
    @Override
    public boolean handles(ReferenceCase reference) {
        return switch (reference.kind()) {
            case "errors-in-variables", "weighted-line", "calibration-curve", "gum-line-fit" -> true;
            default -> false;
        };
    }

    @Override
    public Map<String, Double> compute(ReferenceCase reference) {
        return switch (reference.id()) {
            case "york-pearson" -> york(reference);
            case "deming-arsenate" -> arsenate(reference.data());
            case "iso28037-equal-u" -> known(reference);
            case "ehandbook-linewidth-calibration" -> linewidth(reference.data());
            case "ehandbook-pressure-temperature" -> pressure(reference.data());
            case "gum-h3-thermometer" -> thermometer(reference);
            default -> Map.of();
        };
    }

    private static Map<String, Double> york(ReferenceCase reference) {
        StraightLine line = YorkFit.fit(
                reference.numbers("x"),
                reference.numbers("y"),
                Arrays.stream(reference.numbers("wx"))
                        .map(w -> 1 / Math.sqrt(w))
                        .toArray(),
                Arrays.stream(reference.numbers("wy"))
                        .map(w -> 1 / Math.sqrt(w))
                        .toArray());
        return Map.of(
                "slope", line.slope(),
                "intercept", line.intercept(),
                "se_slope", Math.sqrt(line.slopeVariance()),
                "se_intercept", Math.sqrt(line.interceptVariance()),
                "chi_square", line.chiSquare());
    }

    private static Map<String, Double> arsenate(CaseTable data) {
        StraightLine line =
                YorkFit.fit(data.column("aas"), data.column("aes"), data.column("se_aas"), data.column("se_aes"));
        return Map.of(
                "slope", line.slope(),
                "intercept", line.intercept(),
                "york_se_slope", Math.sqrt(line.slopeVariance()),
                "york_se_intercept", Math.sqrt(line.interceptVariance()));
    }

    private static Map<String, Double> known(ReferenceCase reference) {
        StraightLine line = StraightLine.known(reference.numbers("x"), reference.numbers("y"), reference.numbers("uy"));
        return Map.of(
                "slope", line.slope(),
                "intercept", line.intercept(),
                "u_slope", Math.sqrt(line.slopeVariance()),
                "u_intercept", Math.sqrt(line.interceptVariance()),
                "cov", line.covariance(),
                "chi_square", line.chiSquare());
    }

    private static Map<String, Double> linewidth(CaseTable data) {
        StraightLine line = StraightLine.ordinary(data.column("x"), data.column("y"));
        double scatter = Math.sqrt(line.chiSquare() / line.degreesOfFreedom());
        Map<String, Double> values = new LinkedHashMap<>();
        values.put("a", line.intercept());
        values.put("b", line.slope());
        values.put("sd_a", Math.sqrt(line.interceptVariance()));
        values.put("sd_b", Math.sqrt(line.slopeVariance()));
        values.put("cov_ab", line.covariance());
        values.put("residual_sd", scatter);
        values.put("df", (double) line.degreesOfFreedom());
        for (double y : new double[] {1.12, 3.49, 9.11}) {
            StraightLine.Crossing crossing = line.inverse(y, scatter);
            values.put("x_star y=" + y, crossing.x());
            values.put("u_x_star y=" + y, crossing.standardUncertainty());
        }
        return values;
    }

    private static Map<String, Double> pressure(CaseTable data) {
        double[] temperature = data.column("temperature");
        StraightLine line = StraightLine.ordinary(temperature, data.column("pressure"));
        double[] printed = data.column("printed_fit");
        double largest = 0;
        for (int i = 0; i < printed.length; i++) {
            largest = Math.max(largest, Math.abs(line.at(temperature[i]) - printed[i]));
        }
        return Map.of(
                "intercept", line.intercept(),
                "sd_intercept", Math.sqrt(line.interceptVariance()),
                "slope", line.slope(),
                "sd_slope", Math.sqrt(line.slopeVariance()),
                "residual_sd", Math.sqrt(line.chiSquare() / line.degreesOfFreedom()),
                "df", (double) line.degreesOfFreedom(),
                "max_abs_difference_to_printed_fit", largest);
    }

    private static Map<String, Double> thermometer(ReferenceCase reference) {
        double origin = reference.number("t0");
        double[] fromOrigin = Arrays.stream(reference.data().column("t_C"))
                .map(t -> t - origin)
                .toArray();
        StraightLine line = StraightLine.ordinary(fromOrigin, reference.data().column("b_C"));
        double at = reference.number("predict_at") - origin;
        return Map.of(
                "y1", line.intercept(),
                "u_y1", Math.sqrt(line.interceptVariance()),
                "y2", line.slope(),
                "u_y2", Math.sqrt(line.slopeVariance()),
                "r", line.covariance() / Math.sqrt(line.interceptVariance() * line.slopeVariance()),
                "s", Math.sqrt(line.chiSquare() / line.degreesOfFreedom()),
                "b_30C", line.at(at),
                "u_b_30C", line.standardUncertaintyAt(at),
                "nu", (double) line.degreesOfFreedom(),
                "residual_ss", line.chiSquare());
    }
}
