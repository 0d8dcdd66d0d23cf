package slowproof.trial.findings;

import org.jspecify.annotations.Nullable;
import slowproof.metrology.conformity.Conformance;
import slowproof.metrology.conformity.Decision;
import slowproof.trial.Limit;
import slowproof.trial.Trial;

/**
 * Probability and answer for one mean relative error and its budget. Without a limit or an uncertainty of the
 * reference the answer is "screening only". A reference coarser than the limit gives "undecided". Without any
 * repeats "conforms" is never said, because nothing is known of the scatter; "does not conform" can be.
 *
 * @param probability probability of lying inside the limit, or null
 * @param answer the answer
 */
record Verdict(@Nullable Double probability, Answer answer) {

    static Verdict of(Trial trial, double lengthMm, double mean, Budget budget, boolean repeated) {
        Limit limit = trial.limit();
        if (limit == null || !trial.reference().hasUncertainty()) {
            return new Verdict(null, Answer.SCREENING_ONLY);
        }
        double permitted = limit.permissibleRatio(lengthMm);
        double u = budget.standardUncertainty();
        double nu = budget.effectiveDegreesOfFreedom();
        double probability = Conformance.probability(mean, u, nu, permitted);
        if (tooCoarse(trial, lengthMm)) {
            return new Verdict(probability, Answer.UNDECIDED);
        }
        Decision decision = trial.rule().decide(mean, u, nu, Rules.COVERAGE_PROBABILITY, permitted);
        if (decision == Decision.CONFORMS && !repeated) {
            return new Verdict(probability, Answer.UNDECIDED);
        }
        return new Verdict(probability, Answer.of(decision));
    }

    /** Returns limit over expanded uncertainty of the reference, or null when either is unknown or the latter zero. */
    static @Nullable Double referenceRatio(Trial trial, double lengthMm) {
        Limit limit = trial.limit();
        if (limit == null || !trial.reference().hasUncertainty()) {
            return null;
        }
        double expanded = trial.reference().expandedUncertaintyMm(lengthMm);
        return expanded > 0 ? limit.permissibleErrorMm(lengthMm) / expanded : null;
    }

    private static boolean tooCoarse(Trial trial, double lengthMm) {
        Double ratio = referenceRatio(trial, lengthMm);
        return ratio != null && ratio < 1;
    }

    /** Returns the less favourable of two verdicts. */
    static Verdict worse(Verdict one, Verdict other) {
        Double p = one.probability;
        Double q = other.probability;
        Double smaller = p == null || q == null ? null : Double.valueOf(Math.min(p, q));
        return new Verdict(smaller, rank(one.answer) <= rank(other.answer) ? one.answer : other.answer);
    }

    private static int rank(Answer answer) {
        return switch (answer) {
            case SCREENING_ONLY -> 0;
            case DOES_NOT_CONFORM -> 1;
            case UNDECIDED -> 2;
            case CONFORMS -> 3;
        };
    }
}
