package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;
import slowproof.metrology.statistics.PooledDeviation;
import slowproof.metrology.statistics.Statistics;
import slowproof.trial.Trial;

/**
 * A condition in both directions: the mean of the two means, repeatability pooled within directions, and the
 * less favourable probability and answer.
 */
final class BothDirections extends ConditionFigures {
    private final List<Pass> forward;
    private final List<Pass> back;
    private final Condition forwardResult;
    private final Condition backResult;
    private final List<Cycle> cycles;

    BothDirections(
            Trial trial,
            ConditionKey key,
            List<Pass> forward,
            List<Pass> back,
            Condition forwardResult,
            Condition backResult,
            MaterialScatter material,
            List<Cycle> cycles) {
        super(trial, key, together(forward, back), material);
        this.forward = forward;
        this.back = back;
        this.forwardResult = forwardResult;
        this.backResult = backResult;
        this.cycles = cycles;
        Reversal reversal = reversal();
        if (reversal != null && reversal.significant()) {
            flags.add(Flag.REVERSAL_SIGNIFICANT);
        }
    }

    private static List<Pass> together(List<Pass> forward, List<Pass> back) {
        List<Pass> all = new ArrayList<>(forward);
        all.addAll(back);
        return all;
    }

    @Override
    Direction direction() {
        return Direction.BOTH;
    }

    @Override
    double mean() {
        return (forwardResult.meanError() + backResult.meanError()) / 2;
    }

    @Override
    double meanMm() {
        return (forwardResult.meanErrorMm() + backResult.meanErrorMm()) / 2;
    }

    @Override
    @Nullable
    PooledDeviation own() {
        if (passes.size() < 3) {
            return null;
        }
        return MaterialScatter.pooled(List.of(MaterialScatter.errors(forward), MaterialScatter.errors(back)));
    }

    @Override
    double scatterOfMean(double standardDeviation) {
        return standardDeviation / 2 * Math.sqrt(1.0 / forward.size() + 1.0 / back.size());
    }

    @Override
    Verdict verdictOfMean(Budget budget, boolean repeated) {
        return Verdict.worse(
                new Verdict(forwardResult.conformanceProbability(), forwardResult.decision()),
                new Verdict(backResult.conformanceProbability(), backResult.decision()));
    }

    @Override
    Verdict verdictOfOnePass(@Nullable Spread spread) {
        return Verdict.worse(
                new Verdict(forwardResult.singlePassProbability(), forwardResult.singlePassDecision()),
                new Verdict(backResult.singlePassProbability(), backResult.singlePassDecision()));
    }

    @Override
    @Nullable
    Integer morePasses(Answer decision, @Nullable Spread spread) {
        Integer one = forwardResult.morePasses();
        Integer other = backResult.morePasses();
        if (one == null || other == null) {
            return null;
        }
        return one < 0 || other < 0 ? Integer.valueOf(-1) : Integer.valueOf(Math.max(one, other));
    }

    @Override
    @Nullable
    Reversal reversal() {
        if (cycles.isEmpty()) {
            return null;
        }
        double[] differences = cycles.stream()
                .mapToDouble(cycle -> cycle.forward().error() - cycle.back().error())
                .toArray();
        double mean = Statistics.mean(differences);
        int n = differences.length;
        if (n < 2) {
            return new Reversal(mean, null);
        }
        double half = Distributions.studentQuantile((1 + Rules.CONFIDENCE) / 2, n - 1)
                * Statistics.standardDeviation(differences)
                / Math.sqrt(n);
        return new Reversal(mean, new Interval(mean - half, mean + half));
    }
}
