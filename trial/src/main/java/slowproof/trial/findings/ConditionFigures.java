package slowproof.trial.findings;

import java.math.BigDecimal;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Interval;
import slowproof.metrology.statistics.PooledDeviation;
import slowproof.metrology.statistics.Statistics;
import slowproof.metrology.uncertainty.Component;
import slowproof.trial.IndicatedSpeed;
import slowproof.trial.Limit;
import slowproof.trial.Trial;

/** Figures that a condition has whether it speaks of one direction or of both. */
abstract class ConditionFigures {
    final Trial trial;
    final ConditionKey key;
    final List<Pass> passes;
    final MaterialScatter material;
    final double lengthMm;
    /** Lines of the budget that all passes share. */
    final List<Component> shared;

    final Set<Flag> flags = EnumSet.noneOf(Flag.class);
    final Map<String, ReasonCode> reasons = new LinkedHashMap<>();

    ConditionFigures(Trial trial, ConditionKey key, List<Pass> passes, MaterialScatter material) {
        this.trial = trial;
        this.key = key;
        this.passes = passes;
        this.material = material;
        this.lengthMm =
                Statistics.mean(passes.stream().mapToDouble(Pass::lengthMm).toArray());
        double driftMm = Statistics.mean(
                passes.stream().mapToDouble(Pass::standstillDriftMm).toArray());
        this.shared = SystematicLines.of(trial, lengthMm, driftMm);
    }

    abstract Direction direction();

    abstract double mean();

    abstract double meanMm();

    /** Returns the repeatability of the condition itself, or null. */
    abstract @Nullable PooledDeviation own();

    /** Returns the standard uncertainty of the mean that a standard deviation of one pass gives, a ratio. */
    abstract double scatterOfMean(double standardDeviation);

    abstract Verdict verdictOfMean(Budget budget, boolean repeated);

    abstract Verdict verdictOfOnePass(@Nullable Spread spread);

    abstract @Nullable Integer morePasses(Answer decision, @Nullable Spread spread);

    abstract @Nullable Reversal reversal();

    final Condition evaluate() {
        PooledDeviation own = own();
        Spread spread = Spread.choose(own, material);
        if (spread == null) {
            flags.add(Flag.NO_REPEATABILITY);
        } else if (spread.flag() != null) {
            flags.add(Objects.requireNonNull(spread.flag()));
        }
        if (own != null && own.standardDeviation() == 0) {
            flags.add(Flag.SCATTER_BELOW_RESOLUTION);
        }
        Budget budget = budget(spread);
        Verdict mean = verdictOfMean(budget, spread != null);
        Verdict single = verdictOfOnePass(spread);
        Double ratio = Verdict.referenceRatio(trial, lengthMm);
        if (ratio != null && ratio < 1) {
            flags.add(Flag.REFERENCE_TOO_COARSE);
        } else if (ratio != null && ratio < Rules.COMFORTABLE_REFERENCE_RATIO) {
            flags.add(Flag.REFERENCE_RATIO_LOW);
        }
        Limit limit = trial.limit();
        IndicatedSpeed speed = SpeedOfPasses.of(passes);
        explainGaps(own, mean, single, budget);
        reasons.putAll(SpeedOfPasses.gaps(speed, passes));
        return new Condition(
                key,
                direction(),
                passes.size(),
                lengthMm,
                meanMm(),
                mean(),
                own == null ? null : own.standardDeviation(),
                own == null ? null : own.degreesOfFreedom(),
                interval(own),
                limit == null ? null : limit.permissibleRatio(lengthMm),
                budget.standardUncertainty(),
                budget.effectiveDegreesOfFreedom(),
                budget.coverageFactor(),
                budget.coverageFactor() * budget.standardUncertainty(),
                mean.probability(),
                mean.answer(),
                limit == null ? null : passesOutside(limit),
                single.probability(),
                single.answer(),
                speed,
                budget.lines(),
                reversal(),
                ratio,
                morePasses(mean.answer(), spread),
                flags,
                reasons);
    }

    private Budget budget(@Nullable Spread spread) {
        return spread == null
                ? Budget.of(shared, BudgetSource.REPEATABILITY_OF_THE_MEAN, null, 1)
                : Budget.of(
                        shared,
                        BudgetSource.REPEATABILITY_OF_THE_MEAN,
                        scatterOfMean(spread.standardDeviation()),
                        spread.degreesOfFreedom());
    }

    private static @Nullable Interval interval(@Nullable PooledDeviation own) {
        return own == null || own.standardDeviation() == 0 ? null : own.interval(Rules.CONFIDENCE);
    }

    private int passesOutside(Limit limit) {
        BigDecimal sum = BigDecimal.ZERO;
        for (Pass pass : passes) {
            sum = sum.add(pass.exactLengthMm());
        }
        int outside = 0;
        for (Pass pass : passes) {
            if (!limit.holds(pass.exactErrorMm(), pass.exactLengthMm(), sum, passes.size())) {
                outside++;
            }
        }
        return outside;
    }

    private void explainGaps(@Nullable PooledDeviation own, Verdict mean, Verdict single, Budget budget) {
        if (own == null) {
            ReasonCode why = passes.size() == 1 ? ReasonCode.ONE_PASS : ReasonCode.NO_REPEATS;
            reasons.put("repeatability_pct", why);
            reasons.put("repeatability_degrees_of_freedom", why);
            reasons.put("repeatability_interval_95_pct", why);
            reasons.put("repeatability_limit_pct", why);
        } else if (own.standardDeviation() == 0) {
            reasons.put("repeatability_interval_95_pct", ReasonCode.SCATTER_BELOW_RESOLUTION);
        }
        if (Double.isInfinite(budget.effectiveDegreesOfFreedom())) {
            reasons.put("effective_degrees_of_freedom", ReasonCode.INFINITE);
        }
        ReasonCode undecidable = trial.limit() == null ? ReasonCode.NO_LIMIT : ReasonCode.NO_REFERENCE_UNCERTAINTY;
        if (trial.limit() == null) {
            reasons.put("limit_pct", ReasonCode.NO_LIMIT);
            reasons.put("passes_outside", ReasonCode.NO_LIMIT);
        }
        if (mean.probability() == null) {
            reasons.put("conformance_probability", undecidable);
        }
        if (single.probability() == null) {
            reasons.put(
                    "single_pass_probability",
                    single.answer() == Answer.SCREENING_ONLY ? undecidable : ReasonCode.NO_REPEATS);
        }
    }
}
