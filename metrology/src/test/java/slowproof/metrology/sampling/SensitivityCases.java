package slowproof.metrology.sampling;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.hipparchus.random.HaltonSequenceGenerator;
import slowproof.metrology.Distributions;
import slowproof.metrology.reference.CaseEvaluator;
import slowproof.metrology.reference.ReferenceCase;

/** Sensitivity indices of functions whose indices are known, and the evenness of point sets. */
public final class SensitivityCases implements CaseEvaluator {

    private static final SensitivityPlan PLAN = new SensitivityPlan(1 << 16, 16, Points.SOBOL, 0.95, 5, 2);

    @Override
    public boolean handles(ReferenceCase reference) {
        return reference.folder().equals("sensitivity");
    }

    @Override
    public Map<String, Double> compute(ReferenceCase reference) {
        return switch (reference.id()) {
            case "sobol-ishigami" -> ishigami(reference);
            case "sobol-g-function-a" -> gFunction(reference);
            case "sobol-linear" -> linear(reference);
            default -> evenness(reference);
        };
    }

    private static UniformTransform uniform(int dimensions, double low, double high) {
        return new UniformTransform() {
            @Override
            public int uniforms() {
                return dimensions;
            }

            @Override
            public int quantities() {
                return dimensions;
            }

            @Override
            public void apply(double[] u, double[] x) {
                for (int i = 0; i < x.length; i++) {
                    x[i] = low + (high - low) * u[i];
                }
            }
        };
    }

    private static List<InputGroup> each(int dimensions) {
        return IntStream.range(0, dimensions)
                .mapToObj(i -> new InputGroup("x" + (i + 1), List.of(i)))
                .toList();
    }

    private static Map<String, Double> ishigami(ReferenceCase reference) {
        double a = reference.number("a");
        double b = reference.number("b");
        List<InputGroup> groups = new ArrayList<>(each(3));
        groups.add(new InputGroup("x1 and x3", List.of(0, 2)));
        SobolIndices indices = SobolIndices.estimate(
                x -> Math.sin(x[0]) + a * Math.sin(x[1]) * Math.sin(x[1]) + b * Math.pow(x[2], 4) * Math.sin(x[0]),
                uniform(3, -Math.PI, Math.PI),
                groups,
                PLAN);
        Map<String, Double> result = new LinkedHashMap<>();
        put(result, indices, 3);
        result.put("variance", indices.variance());
        double pair = indices.indices().get(3).first();
        result.put(
                "S13",
                pair
                        - indices.indices().get(0).first()
                        - indices.indices().get(2).first());
        return result;
    }

    private static Map<String, Double> gFunction(ReferenceCase reference) {
        double[] a = reference.numbers("a");
        SobolIndices indices = SobolIndices.estimate(
                x -> {
                    double product = 1;
                    for (int i = 0; i < x.length; i++) {
                        product *= (Math.abs(4 * x[i] - 2) + a[i]) / (1 + a[i]);
                    }
                    return product;
                },
                uniform(a.length, 0, 1),
                each(a.length),
                PLAN);
        Map<String, Double> result = new LinkedHashMap<>();
        put(result, indices, a.length);
        return result;
    }

    private static void put(Map<String, Double> result, SobolIndices indices, int count) {
        for (int i = 0; i < count; i++) {
            result.put("S" + (i + 1), indices.indices().get(i).first());
            result.put("ST" + (i + 1), indices.indices().get(i).total());
        }
    }

    private static Map<String, Double> linear(ReferenceCase reference) {
        JsonNode pairs = reference.input("coefficient_and_sd");
        int n = pairs.size();
        UniformTransform normal = new UniformTransform() {
            @Override
            public int uniforms() {
                return n;
            }

            @Override
            public int quantities() {
                return n;
            }

            @Override
            public void apply(double[] u, double[] x) {
                for (int i = 0; i < n; i++) {
                    x[i] = pairs.get(i).get(1).doubleValue() * Distributions.normalQuantile(u[i]);
                }
            }
        };
        SobolIndices indices = SobolIndices.estimate(
                x -> {
                    double sum = 0;
                    for (int i = 0; i < n; i++) {
                        sum += pairs.get(i).get(0).doubleValue() * x[i];
                    }
                    return sum;
                },
                normal,
                each(n),
                PLAN);
        Map<String, Double> result = new LinkedHashMap<>();
        result.put("u_y", Math.sqrt(indices.variance()));
        for (int i = 1; i <= n; i++) {
            SensitivityIndex index = indices.indices().get(i - 1);
            // one figure stands for both: take the one that is farther off
            double expected = reference.expected("S" + i + "=ST" + i).value();
            boolean firstIsWorse = Math.abs(index.first() - expected) > Math.abs(index.total() - expected);
            result.put("S" + i + "=ST" + i, firstIsWorse ? index.first() : index.total());
        }
        return result;
    }

    private static Map<String, Double> evenness(ReferenceCase reference) {
        Map<String, Double> result = new LinkedHashMap<>();
        for (String design : List.of("design1", "design2")) {
            JsonNode rows = reference.input(design);
            double[][] points = new double[rows.size()][2];
            for (int i = 0; i < points.length; i++) {
                for (int j = 0; j < 2; j++) {
                    points[i][j] = (2 * rows.get(i).get(j).doubleValue() - 1) / 12;
                }
            }
            result.put("CD2_" + design, Discrepancy.centred(points));
        }
        HaltonSequenceGenerator halton = new HaltonSequenceGenerator(2, new int[] {2, 3}, null);
        halton.nextVector();
        for (int i = 1; i <= 8; i++) {
            double[] point = halton.nextVector();
            result.put("halton_" + i + "_base2", point[0]);
            result.put("halton_" + i + "_base3", point[1]);
        }
        return result;
    }
}
