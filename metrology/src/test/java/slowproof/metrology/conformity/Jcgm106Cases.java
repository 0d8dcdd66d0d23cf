package slowproof.metrology.conformity;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;
import slowproof.metrology.reference.CaseEvaluator;
import slowproof.metrology.reference.ExpectedValue;
import slowproof.metrology.reference.ReferenceCase;

/** Conformance probabilities, guard bands and risks of JCGM 106 and ISO 14253-1. */
public final class Jcgm106Cases implements CaseEvaluator {

    private static final double INFINITE = Double.POSITIVE_INFINITY;
    private static final Set<String> KINDS = Set.of("jcgm106-conformance", "global-risk", "guard-band");

    @Override
    public boolean handles(ReferenceCase reference) {
        return KINDS.contains(reference.kind());
    }

    @Override
    public Map<String, Double> compute(ReferenceCase reference) {
        return switch (reference.id()) {
            case "jcgm106-7.2-one-sided-zener" -> oneSided(reference);
            case "jcgm106-7.4-two-sided-viscosity" ->
                Map.of(
                        "p_conform",
                        Conformance.probability(
                                reference.number("y"), reference.number("u"), INFINITE, limits(reference)));
            case "jcgm106-table1" -> table(reference);
            case "conformity-grid-1" -> grid(reference);
            case "guard-band-specific-risk" -> specificRisk();
            case "iso14253-1-decisions-A" -> decisions(reference);
            default -> globalRisk(reference);
        };
    }

    private static Interval limits(ReferenceCase reference) {
        return new Interval(reference.number("T_L"), reference.number("T_U"));
    }

    private static Map<String, Double> oneSided(ReferenceCase reference) {
        double p = Conformance.probability(
                reference.number("y"),
                reference.number("u"),
                INFINITE,
                new Interval(-INFINITE, reference.number("T_U")));
        return Map.of("z", Distributions.normalQuantile(p), "p_conform", p);
    }

    /** The guard factor in units of u that gives each probability. */
    private static Map<String, Double> table(ReferenceCase reference) {
        Map<String, Double> result = new LinkedHashMap<>();
        for (double p : reference.numbers("p")) {
            result.put("z_p" + p, GuardBand.width(1, INFINITE, p));
        }
        return result;
    }

    /** Names are "y=Y u=U". */
    private static Map<String, Double> grid(ReferenceCase reference) {
        Map<String, Double> result = new LinkedHashMap<>();
        for (ExpectedValue expected : reference.expected()) {
            List<String> parts = List.of(expected.name().split("[ =]"));
            double y = Double.parseDouble(parts.get(1));
            double u = Double.parseDouble(parts.get(3));
            result.put(expected.name(), Conformance.probability(y, u, INFINITE, limits(reference)));
        }
        return result;
    }

    /** An estimate on the acceptance limit, w away from an upper limit at 0, with u = 1 and U = 2. */
    private static Map<String, Double> specificRisk() {
        Interval below = new Interval(-INFINITE, 0);
        return Map.of(
                "risk_w0_percent",
                100 * Conformance.probabilityOutside(0, 1, INFINITE, below),
                "risk_wU_percent",
                100 * Conformance.probabilityOutside(-2, 1, INFINITE, below),
                "risk_1.5U_percent",
                100 * Conformance.probabilityOutside(-3, 1, INFINITE, below),
                "risk_3U",
                Conformance.probabilityOutside(-6, 1, INFINITE, below),
                "guard_factor_for_5_percent_in_u",
                GuardBand.width(1, INFINITE, 0.95),
                "guard_factor_for_5_percent_in_U",
                GuardBand.width(0.5, INFINITE, 0.95));
    }

    private static Map<String, Double> decisions(ReferenceCase reference) {
        double u = reference.number("u");
        Interval accepted =
                GuardBand.acceptance(limits(reference), u, INFINITE, 0.95).orElseThrow();
        Interval notRejected = GuardBand.notRejected(limits(reference), u, INFINITE, 0.95);
        return Map.of(
                "g_95", GuardBand.width(u, INFINITE, 0.95),
                "accept_low", accepted.low(),
                "accept_high", accepted.high(),
                "reject_below", notRejected.low(),
                "reject_above", notRejected.high());
    }

    private static Map<String, Double> globalRisk(ReferenceCase reference) {
        NormalPrior prior = new NormalPrior(reference.number("y0"), reference.number("u0"));
        double um = reference.number("um");
        Interval limits = limits(reference);
        Map<String, Double> result = new LinkedHashMap<>();
        for (double guard : reference.numbers("guards_in_um")) {
            Interval accepted = new Interval(limits.low() + guard * um, limits.high() - guard * um);
            GlobalRisk risk = GlobalRisk.of(prior, um, limits, accepted);
            result.put("p_process_conforming", risk.conforming());
            result.put("R_C w=" + (int) guard + "um", risk.consumer());
            result.put("R_P w=" + (int) guard + "um", risk.producer());
        }
        return result;
    }
}
