package slowproof.metrology.statistics;

import java.util.List;
import java.util.Map;
import slowproof.metrology.reference.CaseEvaluator;
import slowproof.metrology.reference.ReferenceCase;
import slowproof.metrology.reference.Requirement;

/** Univariate and analysis-of-variance data sets of the NIST Statistical Reference Datasets. */
public final class StrdCases implements CaseEvaluator {
    @Override
    public boolean handles(ReferenceCase reference) {
        return reference.kind().equals("strd-anova") || reference.kind().equals("strd-univariate");
    }

    @Override
    public Requirement requirement(ReferenceCase reference) {
        if (reference.kind().equals("strd-univariate")) {
            return Requirement.digits(9);
        }
        // the readings of the higher sets, about 1e12, carry their scatter of 0.1 in the last three digits of a double
        return Requirement.digits(reference.input("difficulty").asText().equals("higher") ? 4 : 8);
    }

    @Override
    public Map<String, Double> compute(ReferenceCase reference) {
        return reference.kind().equals("strd-anova")
                ? anova(List.copyOf(reference.data().grouped("group", "y").values()))
                : univariate(reference.data().column("y"));
    }

    static Map<String, Double> anova(List<double[]> groups) {
        OneWay result = OneWay.of(groups);
        return Map.of(
                "df_between", (double) result.betweenDegreesOfFreedom(),
                "ss_between", result.betweenSumOfSquares(),
                "ms_between", result.betweenMeanSquare(),
                "F", result.f(),
                "df_within", (double) result.withinDegreesOfFreedom(),
                "ss_within", result.withinSumOfSquares(),
                "ms_within", result.withinMeanSquare(),
                "r_squared", result.betweenShare(),
                "residual_sd", Math.sqrt(result.withinMeanSquare()));
    }

    private static Map<String, Double> univariate(double[] y) {
        return Map.of(
                "mean", Statistics.mean(y),
                "sd", Statistics.standardDeviation(y),
                "lag1_autocorrelation", Statistics.autocorrelation(y));
    }
}
