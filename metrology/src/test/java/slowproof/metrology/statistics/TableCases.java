package slowproof.metrology.statistics;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;
import slowproof.metrology.reference.CaseEvaluator;
import slowproof.metrology.reference.ReferenceCase;
import slowproof.metrology.reference.Requirement;

/** Published tables: critical values, tolerance factors, intervals of shares, control charts, normality. */
public final class TableCases implements CaseEvaluator {
    private static final long SEED = 20_240_521;

    @Override
    public boolean handles(ReferenceCase reference) {
        return switch (reference.kind()) {
            case "critical-values",
                    "tolerance-factors",
                    "binomial-interval",
                    "control-charts",
                    "location",
                    "normality" -> true;
            default -> false;
        };
    }

    @Override
    public Requirement requirement(ReferenceCase reference) {
        // the printed table was simulated too and differs from a simulation of a million samples in the third digit
        return reference.kind().equals("normality") ? Requirement.digits(2) : Requirement.TOLERANCE;
    }

    @Override
    public Map<String, Double> compute(ReferenceCase reference) {
        return switch (reference.id()) {
            case "cochran-critical-a" -> cochran(reference);
            case "grubbs-critical-a" -> grubbs(reference);
            case "grubbs-double-critical-a" -> grubbsPair(reference);
            case "mandel-critical-a" -> mandel(reference);
            case "tolerance-factors-95-95-a" -> factors(reference);
            case "tolerance-factors-other-a" -> otherFactors(reference);
            case "ehandbook-k2-howe" -> wafers(reference);
            case "wilks-sample-size-a" -> wilks();
            case "control-chart-constants-a" -> constants(reference);
            case "ehandbook-cusum" -> cusum(reference);
            case "ehandbook-zarr13-mean-ci" -> heatFlow(reference);
            case "normal-ppcc-critical-a" -> plot();
            default -> reference.kind().equals("binomial-interval") ? share(reference) : Map.of();
        };
    }

    private static Map<String, Double> cochran(ReferenceCase reference) {
        Map<String, Double> values = new LinkedHashMap<>();
        for (JsonNode table : reference.input("tables")) {
            double alpha = table.get("alpha").doubleValue();
            int n = table.get("n").intValue();
            for (int p = 2; p <= 40; p++) {
                values.put("alpha=" + alpha + " n=" + n + " p=" + p, Cochran.criticalValue(alpha, p, n));
            }
        }
        return values;
    }

    private static Map<String, Double> grubbs(ReferenceCase reference) {
        Map<String, Double> values = new LinkedHashMap<>();
        for (double n : reference.numbers("n")) {
            values.put("n=" + (int) n + " 1pct", Grubbs.criticalValue(0.01, (int) n));
            values.put("n=" + (int) n + " 5pct", Grubbs.criticalValue(0.05, (int) n));
        }
        return values;
    }

    private static Map<String, Double> grubbsPair(ReferenceCase reference) {
        Map<String, Double> values = new LinkedHashMap<>();
        for (double n : reference.numbers("n")) {
            values.put("n=" + (int) n + " two-sided 5pct", GrubbsPair.criticalValue(0.05, (int) n));
            values.put("n=" + (int) n + " two-sided 1pct", GrubbsPair.criticalValue(0.01, (int) n));
        }
        return values;
    }

    private static Map<String, Double> mandel(ReferenceCase reference) {
        Map<String, Double> values = new LinkedHashMap<>();
        for (double groups : reference.numbers("p")) {
            int p = (int) groups;
            for (int percent : new int[] {1, 5}) {
                double alpha = percent / 100.0;
                values.put("h p=" + p + " " + percent + "pct", Mandel.hCritical(alpha, p));
                for (int n = 2; n <= 4; n++) {
                    values.put("k p=" + p + " n=" + n + " " + percent + "pct", Mandel.kCritical(alpha, p, n));
                }
            }
        }
        return values;
    }

    private static Map<String, Double> factors(ReferenceCase reference) {
        double content = reference.number("P");
        double confidence = reference.number("confidence");
        Map<String, Double> values = new LinkedHashMap<>();
        for (double n : reference.numbers("n")) {
            values.put("k1 n=" + (int) n, ToleranceFactor.oneSided(content, confidence, (int) n));
            values.put("k2 n=" + (int) n, ToleranceFactor.twoSided(content, confidence, (int) n));
        }
        return values;
    }

    private static Map<String, Double> otherFactors(ReferenceCase reference) {
        Map<String, Double> values = new LinkedHashMap<>();
        for (JsonNode pair : reference.input("content_confidence")) {
            double content = pair.get(0).doubleValue();
            double confidence = pair.get(1).doubleValue();
            for (double n : reference.numbers("n")) {
                String name = "P=" + content + " conf=" + confidence + " n=" + (int) n;
                values.put(name + " k1", ToleranceFactor.oneSided(content, confidence, (int) n));
                values.put(name + " k2", ToleranceFactor.twoSided(content, confidence, (int) n));
            }
        }
        return values;
    }

    private static Map<String, Double> wafers(ReferenceCase reference) {
        int n = reference.count("n");
        double content = reference.number("P");
        double confidence = reference.number("confidence");
        double howe = ToleranceFactor.howe(content, confidence, n);
        return Map.of(
                "k2_howe",
                howe,
                "low",
                reference.number("mean") - howe * reference.number("sd"),
                "high",
                reference.number("mean") + howe * reference.number("sd"),
                "k1_natrella_approx",
                ToleranceFactor.oneSidedApproximate(content, confidence, n),
                "k1_exact",
                ToleranceFactor.oneSided(content, confidence, n));
    }

    private static Map<String, Double> wilks() {
        return Map.of(
                "P=0.95 conf=0.95 one-sided", (double) DistributionFree.readingsOneSided(0.95, 0.95),
                "P=0.9 conf=0.95 one-sided", (double) DistributionFree.readingsOneSided(0.9, 0.95),
                "P=0.95 conf=0.95 two-sided", (double) DistributionFree.readingsTwoSided(0.95, 0.95));
    }

    private static Map<String, Double> constants(ReferenceCase reference) {
        Map<String, Double> values = new LinkedHashMap<>();
        for (double size : reference.numbers("n")) {
            int n = (int) size;
            values.put("c4_n" + n, ControlChartConstants.c4(n));
            values.put("d2_n" + n, ControlChartConstants.d2(n));
            values.put("d3_n" + n, ControlChartConstants.d3(n));
        }
        return values;
    }

    private static Map<String, Double> cusum(ReferenceCase reference) {
        double[] x = reference.numbers("x");
        Cusum chart = Cusum.of(x, reference.number("mu0"), reference.number("k"), reference.number("h"));
        Map<String, Double> values = new LinkedHashMap<>();
        for (int i = 0; i < x.length; i++) {
            values.put("S_hi_" + (i + 1), chart.high(i));
            values.put("S_lo_" + (i + 1), chart.low(i));
        }
        values.put("first_signal_group", chart.firstSignal().orElseThrow() + 1.0);
        return values;
    }

    private static Map<String, Double> heatFlow(ReferenceCase reference) {
        double[] y = reference.data().column("y");
        double mean = Statistics.mean(y);
        double deviation = Statistics.standardDeviation(y);
        double error = deviation / Math.sqrt(y.length);
        Interval interval = Statistics.meanInterval(y, 0.95);
        return Map.of(
                "mean",
                mean,
                "sd",
                deviation,
                "se",
                error,
                "ci95_low",
                interval.low(),
                "ci95_high",
                interval.high(),
                "t_stat_mu0_5",
                (mean - reference.number("mu0")) / error,
                "t_crit",
                Distributions.studentQuantile(0.975, y.length - 1.0),
                "normal_ppcc_filliben",
                NormalPlot.correlation(y));
    }

    private static Map<String, Double> plot() {
        Map<String, Double> values = new LinkedHashMap<>();
        for (int n : List.of(3, 5, 7, 8, 10, 12)) {
            values.put("n" + n + "_1pct", NormalPlot.criticalValue(0.01, n, 100_000, SEED + n));
            values.put("n" + n + "_5pct", NormalPlot.criticalValue(0.05, n, 100_000, SEED + n));
        }
        return values;
    }

    private static Map<String, Double> share(ReferenceCase reference) {
        int k = reference.count("k");
        int n = reference.count("n");
        Interval wilson = Proportion.wilson(k, n, reference.number("level"));
        Interval exact = Proportion.clopperPearson(k, n, reference.number("level"));
        return Map.of(
                "wilson_low", wilson.low(),
                "wilson_high", wilson.high(),
                "clopper_pearson_low", exact.low(),
                "clopper_pearson_high", exact.high());
    }
}
