package slowproof.metrology.regression;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import slowproof.metrology.reference.CaseEvaluator;
import slowproof.metrology.reference.ReferenceCase;

/** Published monotone fits and computed hinge fits. */
public final class ShapeCases implements CaseEvaluator {
    @Override
    public boolean handles(ReferenceCase reference) {
        return reference.kind().equals("isotonic") || reference.kind().equals("segmented");
    }

    @Override
    public Map<String, Double> compute(ReferenceCase reference) {
        return reference.kind().equals("isotonic") ? isotonic(reference) : hinge(reference);
    }

    private static Map<String, Double> isotonic(ReferenceCase reference) {
        double[] y = reference.numbers("y");
        double[] weights = reference.input("w").isNull() ? new double[y.length] : reference.numbers("w");
        if (reference.input("w").isNull()) {
            Arrays.fill(weights, 1);
        }
        double[] fitted = Isotonic.increasing(y, weights);
        Map<String, Double> values = new LinkedHashMap<>();
        for (int i = 0; i < fitted.length; i++) {
            values.put("fit_" + (i + 1), fitted[i]);
        }
        return values;
    }

    private static Map<String, Double> hinge(ReferenceCase reference) {
        HingeFit fit = HingeFit.fit(reference.numbers("x"), reference.numbers("y"));
        return Map.of(
                "c", fit.meetingPoint(),
                "b0", fit.intercept(),
                "b1", fit.firstSlope(),
                "b2", fit.changeOfSlope(),
                "residual_ss", fit.residualSumOfSquares());
    }
}
