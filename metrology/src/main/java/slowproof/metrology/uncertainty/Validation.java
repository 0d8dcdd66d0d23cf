package slowproof.metrology.uncertainty;

import slowproof.metrology.Interval;

/**
 * Comparison of a budget's interval with that of a Monte Carlo run (JCGM 101:2008, clause 8, from memory): the
 * budget is validated when both ends agree within the numerical tolerance.
 *
 * @param lowDifference distance of the lower ends, in the unit of the result, at least 0
 * @param highDifference distance of the upper ends
 * @param tolerance numerical tolerance of the budget's standard uncertainty, at least 0
 * @param stable whether the Monte Carlo run reached its own tolerance; a validation by an unstable run is worth little
 */
public record Validation(double lowDifference, double highDifference, double tolerance, boolean stable) {

    /**
     * Compares an interval with that of a Monte Carlo run.
     *
     * @param interval the one to validate, of the coverage probability of the run
     * @param standardUncertainty that goes with it, in the unit of the result, above 0
     * @param digits significant digits of the standard uncertainty that count, at least 1
     * @param run Monte Carlo run, best with {@link Adaptive#forValidation}
     * @param kind which of its intervals
     * @return the comparison
     * @throws IllegalArgumentException if the standard uncertainty is not above 0 or no digit counts
     */
    public static Validation of(
            Interval interval, double standardUncertainty, int digits, MonteCarloResult run, IntervalKind kind) {
        Interval reference = run.interval(kind);
        return new Validation(
                Math.abs(interval.low() - reference.low()),
                Math.abs(interval.high() - reference.high()),
                NumericalTolerance.of(standardUncertainty, digits),
                run.stable());
    }

    /**
     * Compares a budget with a Monte Carlo run of the same model.
     *
     * @param budget the budget, of a standard uncertainty above 0
     * @param digits significant digits of the standard uncertainty that count, at least 1
     * @param run Monte Carlo run, best with {@link Adaptive#forValidation}
     * @param kind which of its intervals
     * @return the comparison
     * @throws IllegalArgumentException if the standard uncertainty is 0 or no digit counts
     */
    public static Validation of(Budget budget, int digits, MonteCarloResult run, IntervalKind kind) {
        return of(
                budget.interval(run.coverageProbability()), budget.combined().standardUncertainty(), digits, run, kind);
    }

    /**
     * Tells whether both ends agree.
     *
     * @return true if neither difference is above the tolerance
     */
    public boolean validated() {
        return lowDifference <= tolerance && highDifference <= tolerance;
    }
}
