package slowproof.metrology.regression;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hipparchus.analysis.differentiation.Gradient;
import org.hipparchus.util.FastMath;
import slowproof.metrology.reference.CaseEvaluator;
import slowproof.metrology.reference.CaseTable;
import slowproof.metrology.reference.ReferenceCase;
import slowproof.metrology.reference.Requirement;

/** Nonlinear regression data sets of the NIST Statistical Reference Datasets, each from both published starts. */
public final class StrdNonlinearCases implements CaseEvaluator {
    @Override
    public boolean handles(ReferenceCase reference) {
        return reference.kind().equals("strd-nonlinear");
    }

    @Override
    public Requirement requirement(ReferenceCase reference) {
        return Requirement.digits(6);
    }

    @Override
    public Map<String, Double> compute(ReferenceCase reference) {
        return values(fit(reference, List.of(reference.numbers("start1"), reference.numbers("start2"))));
    }

    static NonlinearFit fit(ReferenceCase reference, List<double[]> starts) {
        CaseTable data = reference.data();
        double[] y = data.column("y");
        List<double[]> columns = new ArrayList<>();
        boolean nelson = reference.id().endsWith("nelson");
        for (String name : nelson ? List.of("x1", "x2") : List.of("x")) {
            columns.add(data.column(name));
        }
        double[][] x = new double[y.length][columns.size()];
        for (int i = 0; i < y.length; i++) {
            for (int j = 0; j < columns.size(); j++) {
                x[i][j] = columns.get(j)[i];
            }
            if (nelson) {
                y[i] = FastMath.log(y[i]);
            }
        }
        return NonlinearLeastSquares.fit(model(reference.id()), x, y, starts);
    }

    static Map<String, Double> values(NonlinearFit fit) {
        Map<String, Double> values = new LinkedHashMap<>();
        for (int j = 0; j < fit.parameters().length; j++) {
            values.put("b" + (j + 1), fit.parameter(j));
            values.put("sd_b" + (j + 1), fit.standardUncertainty(j));
        }
        values.put("residual_ss", fit.residualSumOfSquares());
        values.put("residual_sd", Math.sqrt(fit.residualVariance()));
        values.put("df", (double) fit.degreesOfFreedom());
        return values;
    }

    private static CurveModel model(String id) {
        return switch (id.substring("strd-nonlinear-".length())) {
            case "misra1a", "boxbod" -> (b, x) -> rise(b, x[0]);
            case "misra1b" ->
                (b, x) -> b[0].multiply(
                        b[1].multiply(x[0] / 2).add(1).pow(-2).negate().add(1));
            case "misra1c" ->
                (b, x) -> b[0].multiply(
                        b[1].multiply(2 * x[0]).add(1).pow(-0.5).negate().add(1));
            case "misra1d" ->
                (b, x) -> b[0].multiply(b[1])
                        .multiply(x[0])
                        .divide(b[1].multiply(x[0]).add(1));
            case "mgh09" ->
                (b, x) -> b[0].multiply(b[1].multiply(x[0]).add(x[0] * x[0]))
                        .divide(b[2].multiply(x[0]).add(x[0] * x[0]).add(b[3]));
            case "rat43" ->
                (b, x) -> b[0].divide(
                        b[1].subtract(b[2].multiply(x[0])).exp().add(1).pow(b[3].reciprocal()));
            case "chwirut2" -> (b, x) -> b[0].multiply(-x[0]).exp().divide(b[1].add(b[2].multiply(x[0])));
            case "danwood" ->
                (b, x) -> b[0].multiply(b[1].multiply(FastMath.log(x[0])).exp());
            case "gauss1" ->
                (b, x) -> b[0].multiply(b[1].multiply(-x[0]).exp())
                        .add(bell(b[2], b[3], b[4], x[0]))
                        .add(bell(b[5], b[6], b[7], x[0]));
            case "lanczos3" ->
                (b, x) -> decay(b[0], b[1], x[0]).add(decay(b[2], b[3], x[0])).add(decay(b[4], b[5], x[0]));
            case "mgh17" -> (b, x) -> b[0].add(decay(b[1], b[3], x[0])).add(decay(b[2], b[4], x[0]));
            case "mgh10" -> (b, x) -> b[0].multiply(b[1].divide(b[2].add(x[0])).exp());
            case "kirby2" -> (b, x) -> ratio(b, x[0], 3);
            case "hahn1", "thurber" -> (b, x) -> ratio(b, x[0], 4);
            case "roszman1" ->
                (b, x) -> b[0].subtract(b[1].multiply(x[0]))
                        .subtract(b[2].divide(b[3].negate().add(x[0])).atan().divide(Math.PI));
            case "nelson" ->
                (b, x) -> b[0].subtract(
                        b[1].multiply(x[0]).multiply(b[2].multiply(-x[1]).exp()));
            case "rat42" ->
                (b, x) -> b[0].divide(b[1].subtract(b[2].multiply(x[0])).exp().add(1));
            default -> throw new IllegalArgumentException("no model for " + id);
        };
    }

    private static Gradient rise(Gradient[] b, double x) {
        return b[0].multiply(b[1].multiply(-x).exp().negate().add(1));
    }

    private static Gradient decay(Gradient size, Gradient rate, double x) {
        return size.multiply(rate.multiply(-x).exp());
    }

    private static Gradient bell(Gradient size, Gradient centre, Gradient width, double x) {
        Gradient z = centre.negate().add(x).divide(width);
        return size.multiply(z.multiply(z).negate().exp());
    }

    // (b1 + b2 x + ...) / (1 + b_{n+1} x + ...), n coefficients above and n - 1 below
    private static Gradient ratio(Gradient[] b, double x, int above) {
        Gradient top = b[above - 1];
        for (int k = above - 2; k >= 0; k--) {
            top = top.multiply(x).add(b[k]);
        }
        Gradient bottom = b[b.length - 1].multiply(x);
        for (int k = b.length - 2; k >= above; k--) {
            bottom = bottom.add(b[k]).multiply(x);
        }
        return top.divide(bottom.add(1));
    }
}
