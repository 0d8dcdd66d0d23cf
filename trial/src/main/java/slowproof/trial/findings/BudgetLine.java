package slowproof.trial.findings;

/**
 * One line of an uncertainty budget.
 *
 * @param source where the uncertainty comes from
 * @param standardUncertainty contribution to the relative error, a ratio
 * @param degreesOfFreedom its degrees of freedom, positive infinity for a line not evaluated by repetition
 * @param sharePercent share of the variance in percent
 */
public record BudgetLine(
        BudgetSource source, double standardUncertainty, double degreesOfFreedom, double sharePercent) {}
