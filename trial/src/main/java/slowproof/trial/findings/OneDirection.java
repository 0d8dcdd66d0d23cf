package slowproof.trial.findings;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.statistics.PooledDeviation;
import slowproof.metrology.statistics.Statistics;
import slowproof.trial.Trial;

/** A condition in one direction. */
final class OneDirection extends ConditionFigures {
    private final double mean;

    OneDirection(Trial trial, ConditionKey key, List<Pass> passes, MaterialScatter material) {
        super(trial, key, passes, material);
        this.mean = Statistics.mean(MaterialScatter.errors(passes));
        Flag mark = material.mark(key, direction());
        if (mark != null) {
            flags.add(mark);
        }
    }

    @Override
    Direction direction() {
        return passes.get(0).direction();
    }

    @Override
    double mean() {
        return mean;
    }

    @Override
    double meanMm() {
        return Statistics.mean(passes.stream().mapToDouble(Pass::errorMm).toArray());
    }

    @Override
    @Nullable
    PooledDeviation own() {
        return passes.size() < 2 ? null : MaterialScatter.pooled(List.of(MaterialScatter.errors(passes)));
    }

    @Override
    double scatterOfMean(double standardDeviation) {
        return standardDeviation / Math.sqrt(passes.size());
    }

    @Override
    Verdict verdictOfMean(Budget budget, boolean repeated) {
        return Verdict.of(trial, lengthMm, mean, budget, repeated);
    }

    @Override
    Verdict verdictOfOnePass(@Nullable Spread spread) {
        Verdict verdict = Verdict.of(trial, lengthMm, mean, onePass(spread), spread != null);
        // without repeats the figure would leave out the very scatter that it is about
        return spread == null ? new Verdict(null, verdict.answer()) : verdict;
    }

    private Budget onePass(@Nullable Spread spread) {
        if (spread == null) {
            return Budget.of(shared, BudgetSource.REPEATABILITY_OF_ONE_PASS, null, 1);
        }
        // the mean's own scatter and the pass's own, in one line because both come from one estimate
        double both = Math.hypot(scatterOfMean(spread.standardDeviation()), spread.standardDeviation());
        return Budget.of(shared, BudgetSource.REPEATABILITY_OF_ONE_PASS, both, spread.degreesOfFreedom());
    }

    @Override
    @Nullable
    Integer morePasses(Answer decision, @Nullable Spread spread) {
        return FurtherPasses.needed(trial, lengthMm, shared, mean, passes.size(), decision, spread);
    }

    @Override
    @Nullable
    Reversal reversal() {
        return null;
    }
}
