package slowproof.metrology.statistics;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.metrology.Distributions;
import slowproof.metrology.reference.CaseEvaluator;
import slowproof.metrology.reference.CaseTable;
import slowproof.metrology.reference.ReferenceCase;

/** Published precision experiments, nested studies, positioning tables and tests of variances and outliers. */
public final class PrecisionCases implements CaseEvaluator {
    @Override
    public boolean handles(ReferenceCase reference) {
        return switch (reference.kind()) {
            case "iso5725-precision", "gum-anova", "gauge-study", "variance-tests", "outlier-test", "iso230-2" -> true;
            default -> false;
        };
    }

    @Override
    public Map<String, Double> compute(ReferenceCase reference) {
        return switch (reference.id()) {
            case "iso5725-2-sulfur-a" -> sulfur(reference.data());
            case "e691-glucose-a" -> glucose(reference.data());
            case "apricot-fibre" -> apricot(reference.data());
            case "gum-h5-anova" -> voltage(reference);
            case "ehandbook-gauge-study-probe2362" -> probe(reference.data());
            case "ehandbook-gear-variance-tests" -> gear(reference.data());
            case "ehandbook-grubbs-massspec" -> uranium(reference);
            case "iso230-2-synthetic-hand", "iso230-2-synthetic-random" -> positioning(reference.data());
            default -> Map.of();
        };
    }

    private static Map<String, Double> sulfur(CaseTable data) {
        Map<String, Double> values = new LinkedHashMap<>();
        for (String level : List.of("1", "3")) {
            Precision precision = Precision.of(
                    List.copyOf(data.where("level", level).grouped("lab", "y").values()));
            values.put("level" + level + " m", precision.mean());
            values.put("level" + level + " s_r", precision.repeatability());
            values.put("level" + level + " s_L", precision.betweenGroups());
            values.put("level" + level + " s_R", precision.reproducibility());
        }
        return values;
    }

    private static Map<String, Double> glucose(CaseTable data) {
        Map<String, Double> values = new LinkedHashMap<>();
        for (String material : List.of("A", "C", "E")) {
            List<double[]> labs = List.copyOf(
                    data.where("material", material).grouped("lab", "y").values());
            Precision precision = Precision.of(labs);
            double[] means = labs.stream().mapToDouble(Statistics::mean).toArray();
            values.put(material + " mean", precision.mean());
            values.put(material + " s_xbar", Statistics.standardDeviation(means));
            values.put(material + " s_r", precision.repeatability());
            values.put(material + " s_R", precision.reproducibility());
            values.put(material + " cochran_C", Cochran.statistic(variances(labs)));
            double[] h = Mandel.h(labs);
            double[] k = Mandel.k(labs);
            for (int lab = 0; lab < labs.size(); lab++) {
                values.put(material + " h_lab" + (lab + 1), h[lab]);
                values.put(material + " k_lab" + (lab + 1), k[lab]);
            }
        }
        return values;
    }

    private static Map<String, Double> apricot(CaseTable data) {
        List<double[]> labs = List.copyOf(data.grouped("lab", "y").values());
        Precision precision = Precision.of(labs);
        Map<String, Double> values = new LinkedHashMap<>();
        values.put("m", precision.mean());
        values.put("s_r", precision.repeatability());
        values.put("s_L", precision.betweenGroups());
        values.put("s_R", precision.reproducibility());
        double[] h = Mandel.h(labs);
        for (int lab = 0; lab < h.length; lab++) {
            values.put("h_lab" + (lab + 1), h[lab]);
        }
        return values;
    }

    // The source gives each day's mean and standard deviation: five readings with exactly these stand for the day.
    private static Map<String, Double> voltage(ReferenceCase reference) {
        double[] means = reference.data().column("mean_V");
        double[] deviations = reference.data().column("s_uV");
        int perDay = reference.count("K");
        List<double[]> days = new ArrayList<>();
        for (int day = 0; day < means.length; day++) {
            double offset = deviations[day] * Math.sqrt((perDay - 1) / 2.0);
            double microvolts = (means[day] - 10) * 1e6;
            days.add(new double[] {microvolts - offset, microvolts, microvolts, microvolts, microvolts + offset});
        }
        OneWay oneWay = OneWay.of(days);
        double between = oneWay.betweenMeanSquare();
        double within = oneWay.withinMeanSquare();
        int readings = means.length * perDay;
        double pooled = (oneWay.betweenSumOfSquares() + oneWay.withinSumOfSquares()) / (readings - 1);
        Map<String, Double> values = new LinkedHashMap<>();
        values.put("grand_mean_V", 10 + oneWay.grandMean() * 1e-6);
        values.put("s_of_day_means_uV", Math.sqrt(between / perDay));
        values.put("s_a_uV", Math.sqrt(between));
        values.put("s_b_uV", Math.sqrt(within));
        values.put("F", oneWay.f());
        values.put(
                "F_crit_0.95_9_40",
                Distributions.fQuantile(0.95, oneWay.betweenDegreesOfFreedom(), oneWay.withinDegreesOfFreedom()));
        values.put(
                "F_crit_0.975_9_40",
                Distributions.fQuantile(0.975, oneWay.betweenDegreesOfFreedom(), oneWay.withinDegreesOfFreedom()));
        values.put("s_B_uV", Math.sqrt(oneWay.betweenVariance()));
        values.put("u_mean_with_day_effect_uV", Math.sqrt(between / readings));
        values.put("nu_with_day_effect", (double) oneWay.betweenDegreesOfFreedom());
        values.put("s_pooled_no_day_effect_uV", Math.sqrt(pooled));
        values.put("u_mean_no_day_effect_uV", Math.sqrt(pooled / readings));
        values.put("nu_no_day_effect", readings - 1.0);
        return values;
    }

    private static Map<String, Double> probe(CaseTable data) {
        List<PooledDeviation> sixReadings = new ArrayList<>();
        for (double deviation : data.column("sd")) {
            sixReadings.add(new PooledDeviation(deviation, 5));
        }
        List<double[]> days = new ArrayList<>();
        List<double[]> runs = new ArrayList<>();
        for (String wafer : List.copyOf(data.grouped("wafer", "average").keySet())) {
            List<double[]> ofWafer = List.copyOf(
                    data.where("wafer", wafer).grouped("run", "average").values());
            days.addAll(ofWafer);
            runs.add(ofWafer.stream().mapToDouble(Statistics::mean).toArray());
        }
        PooledDeviation day = PooledDeviation.of(days);
        PooledDeviation run = PooledDeviation.of(runs);
        return Map.of(
                "s1_repeatability", PooledDeviation.pool(sixReadings).standardDeviation(),
                "s2_day", day.standardDeviation(),
                "s3_run", run.standardDeviation(),
                "df_s2", day.degreesOfFreedom(),
                "df_s3", run.degreesOfFreedom());
    }

    private static Map<String, Double> gear(CaseTable data) {
        List<double[]> batches = List.copyOf(data.grouped("batch", "diameter").values());
        VarianceTests.Result bartlett = VarianceTests.bartlett(batches);
        VarianceTests.Result levene = VarianceTests.levene(batches);
        return Map.of(
                "bartlett_T", bartlett.statistic(),
                "bartlett_p", bartlett.pValue(),
                "bartlett_crit_0.05", Distributions.chiSquaredQuantile(0.95, 9),
                "levene_median_W", levene.statistic(),
                "levene_p", levene.pValue(),
                "levene_crit_0.05", Distributions.fQuantile(0.95, 9, 90),
                "cochran_C", Cochran.statistic(variances(batches)));
    }

    private static Map<String, Double> uranium(ReferenceCase reference) {
        double[] x = reference.numbers("x");
        double alpha = reference.number("alpha");
        Grubbs.Farthest farthest = Grubbs.statistic(x);
        return Map.of(
                "G", farthest.statistic(),
                // the test at level alpha on one side is the two-sided test at twice the level
                "critical_one_sided_0.05", Grubbs.criticalValue(2 * alpha, x.length),
                "critical_two_sided_0.05", Grubbs.criticalValue(alpha, x.length),
                "outlier_index_1based", farthest.index() + 1.0);
    }

    private static Map<String, Double> positioning(CaseTable data) {
        BidirectionalAccuracy table = BidirectionalAccuracy.of(approaches(data, "up"), approaches(data, "down"));
        Map<String, Double> values = new LinkedHashMap<>();
        values.put("B", table.largestReversal());
        values.put("B_mean", table.meanReversal());
        values.put("M", table.meanDeviationRange());
        values.put("E", table.systematicDeviation());
        values.put("E_up", table.systematicDeviationUp());
        values.put("E_down", table.systematicDeviationDown());
        values.put("R_up", table.repeatabilityUp());
        values.put("R_down", table.repeatabilityDown());
        values.put("R", table.largestRepeatability());
        values.put("A", table.accuracy());
        values.put("A_up", table.accuracyUp());
        values.put("A_down", table.accuracyDown());
        for (int target = 0; target < table.targets(); target++) {
            values.put("B_" + (target + 1), table.reversal(target));
            values.put("R_" + (target + 1), table.repeatability(target));
        }
        return values;
    }

    private static List<double[]> approaches(CaseTable data, String direction) {
        CaseTable part = data.where("direction", direction);
        List<double[]> targets = new ArrayList<>();
        for (int i = 0; i < part.rows(); i++) {
            double[] runs = new double[5];
            for (int run = 0; run < 5; run++) {
                runs[run] = part.column("r" + (run + 1))[i];
            }
            targets.add(runs);
        }
        return targets;
    }

    private static double[] variances(List<double[]> groups) {
        return groups.stream()
                .mapToDouble(Statistics::standardDeviation)
                .map(s -> s * s)
                .toArray();
    }
}
