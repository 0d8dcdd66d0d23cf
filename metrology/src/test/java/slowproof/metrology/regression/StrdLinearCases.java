package slowproof.metrology.regression;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.metrology.reference.CaseEvaluator;
import slowproof.metrology.reference.ReferenceCase;
import slowproof.metrology.reference.Requirement;

/** Linear regression data sets of the NIST Statistical Reference Datasets. */
public final class StrdLinearCases implements CaseEvaluator {
    @Override
    public boolean handles(ReferenceCase reference) {
        return reference.kind().equals("strd-linear");
    }

    @Override
    public Requirement requirement(ReferenceCase reference) {
        return Requirement.digits(reference.input("difficulty").asText().equals("higher") ? 7 : 9);
    }

    @Override
    public Map<String, Double> compute(ReferenceCase reference) {
        boolean intercept = reference.input("intercept").asBoolean();
        double[] y = reference.data().column("y");
        LinearFit fit = fit(reference, y, intercept);
        Map<String, Double> values = new LinkedHashMap<>();
        for (int i = 0; i < fit.size(); i++) {
            String name = reference.input("parameters").get(i).asText();
            values.put(name, fit.coefficient(i));
            values.put("sd_" + name, fit.standardUncertainty(i));
        }
        VarianceSplit split = intercept ? fit.aboutMean() : fit.aboutZero();
        values.put("residual_sd", Math.sqrt(fit.residualVariance()));
        values.put("r_squared", split.explainedShare());
        values.put("ss_regression", split.explained());
        values.put("df_regression", (double) split.explainedDegreesOfFreedom());
        values.put("ss_residual", split.residual());
        values.put("df_residual", (double) split.residualDegreesOfFreedom());
        values.put("F", split.f());
        return values;
    }

    private static LinearFit fit(ReferenceCase reference, double[] y, boolean intercept) {
        if (reference.input("powers_of_x").isArray() && intercept) {
            return LeastSquares.polynomial(
                    reference.data().column("x"), y, (int) max(reference.numbers("powers_of_x")));
        }
        List<String> names = intercept ? List.of("x1", "x2", "x3", "x4", "x5", "x6") : List.of("x");
        double[][] rows = new double[y.length][names.size() + (intercept ? 1 : 0)];
        for (int i = 0; i < y.length; i++) {
            rows[i][0] = 1;
            for (int j = 0; j < names.size(); j++) {
                rows[i][j + (intercept ? 1 : 0)] = reference.data().column(names.get(j))[i];
            }
        }
        return LeastSquares.ordinary(rows, y);
    }

    private static double max(double[] values) {
        return Arrays.stream(values).max().orElseThrow();
    }
}
