package slowproof.metrology.uncertainty;

/**
 * One input in a budget.
 *
 * @param input the input quantity with its distribution, its standard uncertainty and degrees of freedom
 * @param sensitivity partial derivative of the result at the estimates, in units of the result per unit of the input
 * @param component index in {@link Combined#components()} of the component that holds this input: its own, or the one
 *     it shares with correlated inputs; -1 when the input contributes nothing
 */
public record BudgetLine(Input input, double sensitivity, int component) {

    /** Stands for "contributes to no component". */
    public static final int NO_COMPONENT = -1;

    /**
     * Returns what the input alone contributes to the standard uncertainty of the result, |c| u.
     *
     * @return in the unit of the result, at least 0
     */
    public double contribution() {
        return Math.abs(sensitivity) * input.distribution().standardUncertainty();
    }

    /**
     * Returns the uncertainty as stated, before the divisor: a half-width, or an expanded uncertainty.
     *
     * @return in the unit of the input, at least 0
     */
    public double statedUncertainty() {
        return input.distribution().standardUncertainty() * input.distribution().divisor();
    }
}
