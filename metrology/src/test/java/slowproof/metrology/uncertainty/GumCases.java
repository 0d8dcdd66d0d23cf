package slowproof.metrology.uncertainty;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import slowproof.metrology.Distributions;
import slowproof.metrology.reference.CaseEvaluator;
import slowproof.metrology.reference.ExpectedValue;
import slowproof.metrology.reference.ReferenceCase;
import slowproof.metrology.sampling.ModelFunction;

/** Budgets of the examples of JCGM 100 and EA-4/02, and its table of t factors. */
public final class GumCases implements CaseEvaluator {

    private static final Set<String> KINDS = Set.of("gum-propagation", "gum-welch-satterthwaite", "gum-t-factors");

    @Override
    public boolean handles(ReferenceCase reference) {
        return KINDS.contains(reference.kind());
    }

    @Override
    public Map<String, Double> compute(ReferenceCase reference) {
        return switch (reference.id()) {
            case "ea402-s10-calliper" -> calliper(reference);
            case "gum-h1-end-gauge" -> endGauge(reference);
            case "gum-h2-impedance" -> impedance(reference);
            case "gum-g41-welch" -> product(reference);
            case "welch-synthetic-1" -> synthetic(reference);
            default -> tFactors(reference);
        };
    }

    private static double at(ReferenceCase reference, String name, String field) {
        return reference.input(name).get(field).doubleValue();
    }

    private static Map<String, Double> calliper(ReferenceCase reference) {
        double scaleLimit = at(reference, "dlM", "half_width_um") / 1000;
        double readingLimit = at(reference, "dliX", "half_width_um") / 1000;
        double perKelvin = at(reference, "Dt", "c_um_per_C") / 1000;
        UncertaintyModel model = UncertaintyModel.of(
                List.of(
                        Input.of("liX", Normal.of(reference.number("liX_mm"), 0)),
                        Input.of(
                                "lS",
                                Rectangular.about(
                                        at(reference, "lS", "x_mm"), at(reference, "lS", "half_width_um") / 1000)),
                        Input.of("Dt", Rectangular.about(0, at(reference, "Dt", "half_width_C"))),
                        Input.of("dliX", Rectangular.about(0, readingLimit)),
                        Input.of("dlM", Rectangular.about(0, scaleLimit))),
                x -> x[0] - x[1] + perKelvin * x[2] + x[3] + x[4]);
        Budget budget = Budget.of(model);
        double standardUncertainty = budget.combined().standardUncertainty();
        Trapezoidal sum = Trapezoidal.ofSum(0, scaleLimit, readingLimit);
        double factor = sum.quantile(0.975) / sum.standardUncertainty();
        return Map.of(
                "E_mm", budget.estimate(),
                "u_Dt_um", 1000 * budget.lines().get(2).contribution(),
                "u_dliX_um", 1000 * budget.lines().get(3).contribution(),
                "u_dlM_um", 1000 * budget.lines().get(4).contribution(),
                "u_c_um", 1000 * standardUncertainty,
                "trapezoid_edge_ratio_beta", sum.topRatio(),
                "k_trapezoid_95", factor,
                "U_mm", factor * standardUncertainty);
    }

    private static Map<String, Double> endGauge(ReferenceCase reference) {
        List<Input> difference = List.of(stated(reference, "dbar"), stated(reference, "d1"), stated(reference, "d2"));
        Combined d = Budget.of(UncertaintyModel.of(difference, x -> x[0] + x[1] + x[2]))
                .combined();
        List<Input> inputs = new ArrayList<>(difference);
        for (String name : List.of("lS", "alphaS", "theta", "dalpha", "dtheta")) {
            inputs.add(stated(reference, name));
        }
        UncertaintyModel model =
                UncertaintyModel.of(inputs, x -> x[3] + x[0] + x[1] + x[2] - x[3] * (x[6] * x[5] + x[4] * x[7]));
        Budget budget = Budget.of(model);
        SecondOrder higher = SecondOrder.of(model);
        double truncated = Math.floor(budget.combined().effectiveDegreesOfFreedom());
        double factor = Distributions.studentQuantile(0.995, truncated);
        Map<String, Double> result = new LinkedHashMap<>();
        result.put("l_nm", budget.estimate());
        result.put("u_d", d.standardUncertainty());
        result.put("nu_d", d.effectiveDegreesOfFreedom());
        result.put("u_dalpha_component", budget.lines().get(6).contribution());
        result.put("u_dtheta_component", budget.lines().get(7).contribution());
        result.put("u_c", budget.combined().standardUncertainty());
        result.put("nu_eff", budget.combined().effectiveDegreesOfFreedom());
        result.put("nu_eff_truncated", truncated);
        result.put("t99_nu16", factor);
        result.put("U99", factor * budget.combined().standardUncertainty());
        result.put("second_order_term_dalpha_theta", pair(higher, "theta", "dalpha"));
        result.put("second_order_term_alphaS_dtheta", pair(higher, "alphaS", "dtheta"));
        result.put("u_c_with_second_order", higher.standardUncertainty());
        return result;
    }

    private static Input stated(ReferenceCase reference, String name) {
        JsonNode nu = reference.input(name).get("nu");
        return new Input(
                name,
                Normal.of(at(reference, name, "x"), at(reference, name, "u")),
                nu == null || nu.isNull() ? Double.POSITIVE_INFINITY : nu.doubleValue());
    }

    private static double pair(SecondOrder higher, String first, String second) {
        return higher.terms().stream()
                .filter(term -> term.first().equals(first) && term.second().equals(second))
                .mapToDouble(term -> Math.sqrt(term.variance()))
                .findFirst()
                .orElseThrow();
    }

    private static Map<String, Double> impedance(ReferenceCase reference) {
        SimultaneousReadings readings = SimultaneousReadings.of(
                List.of("V", "I", "phi"),
                List.of(reference.numbers("V_volt"), reference.numbers("I_ampere"), reference.numbers("phi_rad")));
        ModelFunction resistance = x -> x[0] * Math.cos(x[2]) / x[1];
        ModelFunction reactance = x -> x[0] * Math.sin(x[2]) / x[1];
        ModelFunction impedance = x -> x[0] / x[1];
        Map<String, Double> result = new LinkedHashMap<>();
        for (int i = 0; i < 3; i++) {
            String name = List.of("V", "I_mA", "phi").get(i);
            double scale = i == 1 ? 1000 : 1;
            InputDistribution mean = readings.inputs().get(i).distribution();
            result.put("mean_" + name, scale * mean.estimate());
            result.put("s_mean_" + name, scale * mean.standardUncertainty());
        }
        result.put("r_V_I", readings.correlation(0, 1));
        result.put("r_V_phi", readings.correlation(0, 2));
        result.put("r_I_phi", readings.correlation(1, 2));
        put(result, "R", Budget.of(readings.model(resistance)));
        put(result, "X", Budget.of(readings.model(reactance)));
        put(result, "Z", Budget.of(readings.model(impedance)));
        result.put("r_R_X", correlation(readings, resistance, reactance));
        result.put("r_R_Z", correlation(readings, resistance, impedance));
        result.put("r_X_Z", correlation(readings, reactance, impedance));
        return result;
    }

    private static void put(Map<String, Double> result, String name, Budget budget) {
        result.put(name, budget.estimate());
        result.put("u_" + name, budget.combined().standardUncertainty());
    }

    /** From the variances of sum and difference: 4 cov(a, b) = var(a + b) - var(a - b). */
    private static double correlation(SimultaneousReadings readings, ModelFunction a, ModelFunction b) {
        double sum = variance(readings, x -> a.value(x) + b.value(x));
        double difference = variance(readings, x -> a.value(x) - b.value(x));
        return (sum - difference) / 4 / Math.sqrt(variance(readings, a) * variance(readings, b));
    }

    private static double variance(SimultaneousReadings readings, ModelFunction function) {
        double u = Budget.of(readings.model(function)).combined().standardUncertainty();
        return u * u;
    }

    private static Map<String, Double> product(ReferenceCase reference) {
        double[] u = reference.numbers("rel_u_percent");
        double[] n = reference.numbers("n");
        List<Component> components = new ArrayList<>();
        for (int i = 0; i < u.length; i++) {
            components.add(new Component("x" + (i + 1), u[i], n[i] - 1));
        }
        Combined combined = Combined.of(components);
        double p = reference.number("p");
        return Map.of(
                "rel_u_c_percent", combined.standardUncertainty(),
                "nu_eff", combined.effectiveDegreesOfFreedom(),
                "t95", combined.coverageFactor(p),
                "rel_U95_percent", combined.expandedUncertainty(p));
    }

    private static Map<String, Double> synthetic(ReferenceCase reference) {
        double[] u = reference.numbers("u_components");
        JsonNode nu = reference.input("nu");
        List<Component> components = new ArrayList<>();
        for (int i = 0; i < u.length; i++) {
            components.add(new Component(
                    "x" + i,
                    u[i],
                    nu.get(i).isNull() ? Double.POSITIVE_INFINITY : nu.get(i).doubleValue()));
        }
        Combined combined = Combined.of(components);
        double truncated = Distributions.studentQuantile(
                (1 + reference.number("p")) / 2, Math.floor(combined.effectiveDegreesOfFreedom()));
        return Map.of(
                "u_c", combined.standardUncertainty(),
                "nu_eff", combined.effectiveDegreesOfFreedom(),
                "k_noninteger_nu", combined.coverageFactor(reference.number("p")),
                "k_truncated_nu", truncated,
                "U_truncated_nu", truncated * combined.standardUncertainty());
    }

    /** Names are t_pP_nuN; the percentages 68.27, 95.45 and 99.73 stand for one, two and three sigma. */
    private static Map<String, Double> tFactors(ReferenceCase reference) {
        Map<String, Double> result = new LinkedHashMap<>();
        for (ExpectedValue expected : reference.expected()) {
            List<String> parts = List.of(expected.name().split("_"));
            double nu = Double.parseDouble(parts.get(2).substring(2));
            double upper = switch (parts.get(1)) {
                case "p68.27" -> Distributions.normalCdf(1);
                case "p95.45" -> Distributions.normalCdf(2);
                case "p99.73" -> Distributions.normalCdf(3);
                default -> (1 + Double.parseDouble(parts.get(1).substring(1)) / 100) / 2;
            };
            result.put(expected.name(), Distributions.studentQuantile(upper, nu));
        }
        return result;
    }
}
