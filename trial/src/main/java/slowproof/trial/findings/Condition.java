package slowproof.trial.findings;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Interval;
import slowproof.trial.IndicatedSpeed;

/**
 * Result of one condition in one direction, or of both directions. Relative quantities are ratios.
 *
 * @param key material, set-up, speed, acceleration
 * @param direction direction, or both
 * @param passes number of passes, at least 1
 * @param meanLengthMm mean length of the passes in mm
 * @param meanErrorMm mean error of indication in mm
 * @param meanError mean relative error
 * @param repeatability standard deviation of the relative error under repeatability conditions (VIM 2.21, ISO
 *     5725-2); pooled within directions for both; null when nothing was repeated
 * @param repeatabilityDegreesOfFreedom its degrees of freedom; null with it
 * @param repeatabilityInterval its 95 % interval (chi-square); null with it or when it is zero
 * @param limit largest permissible relative error at the mean length, or null
 * @param standardUncertainty combined standard uncertainty of the mean error, of the lines that have input
 * @param effectiveDegreesOfFreedom after Welch-Satterthwaite; positive infinity when no line was evaluated by repetition
 * @param coverageFactor coverage factor at 95.45 %
 * @param expandedUncertainty expanded uncertainty
 * @param conformanceProbability probability that the mean error lies inside the limit, or null
 * @param decision answer about the mean error
 * @param passesOutside passes whose error lies outside the limit; null without a limit
 * @param singlePassProbability probability that one future pass lies inside the limit, or null
 * @param singlePassDecision answer about one future pass
 * @param speed indicated speed over the passes, or null
 * @param budget lines of the budget of the mean
 * @param reversal difference of the directions; null unless both, with a cycle
 * @param referenceRatio limit over expanded uncertainty of the reference, or null
 * @param morePasses passes per direction still needed for the answer "conforms", as far as can be foreseen: 0 when
 *     none are needed, -1 when repeats alone will not do; null when it cannot be said
 * @param flags marks
 * @param reasons for each figure that is null, by its name in files, why
 */
public record Condition(
        ConditionKey key,
        Direction direction,
        int passes,
        double meanLengthMm,
        double meanErrorMm,
        double meanError,
        @Nullable Double repeatability,
        @Nullable Double repeatabilityDegreesOfFreedom,
        @Nullable Interval repeatabilityInterval,
        @Nullable Double limit,
        double standardUncertainty,
        double effectiveDegreesOfFreedom,
        double coverageFactor,
        double expandedUncertainty,
        @Nullable Double conformanceProbability,
        Answer decision,
        @Nullable Integer passesOutside,
        @Nullable Double singlePassProbability,
        Answer singlePassDecision,
        @Nullable IndicatedSpeed speed,
        List<BudgetLine> budget,
        @Nullable Reversal reversal,
        @Nullable Double referenceRatio,
        @Nullable Integer morePasses,
        Set<Flag> flags,
        Map<String, ReasonCode> reasons) {
    /** Copies the collections. */
    public Condition {
        budget = List.copyOf(budget);
        flags = Flags.copyOf(flags);
        reasons = Collections.unmodifiableMap(new LinkedHashMap<>(reasons));
    }

    /** Returns the repeatability limit r = 2.8 s_r (ISO 5725-6:1994, 4.1), a ratio; null without repeatability. */
    public @Nullable Double repeatabilityLimit() {
        return repeatability == null ? null : Double.valueOf(Rules.REPEATABILITY_LIMIT_FACTOR * repeatability);
    }
}
