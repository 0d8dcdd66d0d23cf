package slowproof.metrology.uncertainty;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import slowproof.metrology.Interval;
import slowproof.metrology.reference.CaseEvaluator;
import slowproof.metrology.reference.ReferenceCase;
import slowproof.metrology.sampling.Points;

/**
 * Examples of JCGM 101. Sobol points are used where the printed tolerance is tighter than random points reach in a few
 * million trials.
 */
public final class Jcgm101Cases implements CaseEvaluator {

    private static final long SEED = 101;
    private static final long TRIALS = 1 << 20;

    @Override
    public boolean handles(ReferenceCase reference) {
        return reference.kind().equals("jcgm101");
    }

    @Override
    public Map<String, Double> compute(ReferenceCase reference) {
        return switch (reference.id()) {
            case "jcgm101-9.2.2-normal" -> fourNormal(reference);
            case "jcgm101-9.2.3-rectangular" -> fourRectangular(reference);
            case "jcgm101-9.3-mass" -> mass(reference);
            default -> comparisonLoss(reference);
        };
    }

    private static MonteCarloResult run(UncertaintyModel model, double p) {
        return MonteCarlo.fixed(
                model,
                TRIALS,
                MonteCarloSettings.of(SEED)
                        .withThreads(2)
                        .withPoints(Points.SOBOL)
                        .withCoverageProbability(p));
    }

    private static UncertaintyModel sumOfFour(InputDistribution each) {
        List<Input> inputs = IntStream.rangeClosed(1, 4)
                .mapToObj(i -> Input.of("X" + i, each))
                .toList();
        return UncertaintyModel.of(inputs, x -> x[0] + x[1] + x[2] + x[3]);
    }

    private static Map<String, Double> fourNormal(ReferenceCase reference) {
        MonteCarloResult run = run(sumOfFour(Normal.of(0, 1)), reference.number("p"));
        Interval interval = run.interval(IntervalKind.SYMMETRIC);
        return Map.of(
                "y", run.estimate(),
                "u", run.standardUncertainty(),
                "low95", interval.low(),
                "high95", interval.high(),
                "numerical_tolerance_delta_2_digits", NumericalTolerance.of(run.standardUncertainty(), 2),
                "numerical_tolerance_delta_3_digits", NumericalTolerance.of(run.standardUncertainty(), 3));
    }

    private static Map<String, Double> fourRectangular(ReferenceCase reference) {
        UncertaintyModel model = sumOfFour(Rectangular.about(0, Math.sqrt(3)));
        MonteCarloResult run = run(model, reference.number("p"));
        Interval interval = run.interval(IntervalKind.SYMMETRIC);
        Budget budget = Budget.of(model);
        return Map.of(
                "y", run.estimate(),
                "u", run.standardUncertainty(),
                "low95", interval.low(),
                "high95", interval.high(),
                "GUF_high95", budget.interval(reference.number("p")).high(),
                "d_low_GUF_vs_exact",
                        Validation.of(budget, 2, run, IntervalKind.SYMMETRIC).lowDifference());
    }

    /** Masses in mg, densities in kg/m3; the distributions are written as text in the case. */
    static UncertaintyModel massModel() {
        return UncertaintyModel.of(
                List.of(
                        Input.of("mRc", Normal.of(100000, 0.050)),
                        Input.of("dmRc", Normal.of(1.234, 0.020)),
                        Input.of("rho_a", new Rectangular(1.10, 1.30)),
                        Input.of("rho_W", new Rectangular(7000, 9000)),
                        Input.of("rho_R", new Rectangular(7950, 8050))),
                x -> (x[0] - 100000) + x[1] + (x[0] + x[1]) * (x[2] - 1.2) * (1 / x[3] - 1 / x[4]));
    }

    private static Map<String, Double> mass(ReferenceCase reference) {
        double p = reference.number("p");
        Budget first = Budget.of(massModel());
        SecondOrder second = SecondOrder.of(massModel());
        MonteCarloResult run = run(massModel(), p);
        Interval shortest = run.interval(IntervalKind.SHORTEST);
        Validation ofFirst = Validation.of(first, 1, run, IntervalKind.SHORTEST);
        Validation ofSecond =
                Validation.of(second.interval(p), second.standardUncertainty(), 1, run, IntervalKind.SHORTEST);
        Map<String, Double> result = new LinkedHashMap<>();
        result.put("GUF1_y", first.estimate());
        result.put("GUF1_u", first.combined().standardUncertainty());
        result.put("GUF1_low", first.interval(p).low());
        result.put("GUF1_high", first.interval(p).high());
        result.put("GUF2_u", second.standardUncertainty());
        result.put("GUF2_low", second.interval(p).low());
        result.put("GUF2_high", second.interval(p).high());
        result.put("MCM_y", run.estimate());
        result.put("MCM_u", run.standardUncertainty());
        result.put("MCM_shortest_low", shortest.low());
        result.put("MCM_shortest_high", shortest.high());
        result.put("d_low_GUF1", ofFirst.lowDifference());
        result.put("d_high_GUF1", ofFirst.highDifference());
        result.put("d_low_GUF2", ofSecond.lowDifference());
        result.put("d_high_GUF2", ofSecond.highDifference());
        result.put("delta", NumericalTolerance.of(run.standardUncertainty(), 1));
        return result;
    }

    /** In units of 1e-6. */
    private static Map<String, Double> comparisonLoss(ReferenceCase reference) {
        double u = reference.number("u");
        double p = reference.number("p");
        Map<String, Double> result = new LinkedHashMap<>();
        for (double x1 : reference.numbers("x1")) {
            String name = "x1=" + (x1 == 0 ? "0" : Double.toString(x1)) + " ";
            UncertaintyModel model = UncertaintyModel.of(
                    List.of(Input.of("X1", Normal.of(x1, u)), Input.of("X2", Normal.of(reference.number("x2"), u))),
                    x -> 1e6 * (x[0] * x[0] + x[1] * x[1]));
            MonteCarloResult run = run(model, p);
            Interval shortest = averageShortest(model, p);
            result.put(name + "y", run.estimate());
            result.put(name + "u", run.standardUncertainty());
            result.put(name + "low", shortest.low());
            result.put(name + "high", shortest.high());
            if (x1 > 0) {
                Budget budget = Budget.of(model);
                result.put(name + "GUF_u", budget.combined().standardUncertainty());
                result.put(name + "GUF_low", budget.interval(p).low());
                result.put(name + "GUF_high", budget.interval(p).high());
            }
        }
        return result;
    }

    /** The ends of one shortest interval scatter by more than the printed tolerance, even with millions of trials. */
    private static Interval averageShortest(UncertaintyModel model, double p) {
        int runs = 64;
        double low = 0;
        double high = 0;
        for (int run = 0; run < runs; run++) {
            MonteCarloSettings settings = MonteCarloSettings.of(SEED + run)
                    .withThreads(2)
                    .withPoints(Points.SOBOL)
                    .withCoverageProbability(p);
            Interval shortest =
                    MonteCarlo.fixed(model, 4 * TRIALS / runs, settings).interval(IntervalKind.SHORTEST);
            low += shortest.low() / runs;
            high += shortest.high() / runs;
        }
        return new Interval(low, high);
    }
}
