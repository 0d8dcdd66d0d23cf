package slowproof.trial.scatter;

/**
 * A figure with its 95 % interval, all in the unit of the figure.
 *
 * @param value estimate
 * @param low lower end of the two-sided 95 % interval
 * @param high upper end
 */
public record Estimate(double value, double low, double high) {}
