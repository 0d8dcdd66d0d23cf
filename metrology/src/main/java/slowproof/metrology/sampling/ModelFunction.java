package slowproof.metrology.sampling;

/** A quantity as a function of its input quantities. Must be pure: it is called from several threads at once. */
@FunctionalInterface
public interface ModelFunction {

    /**
     * Evaluates the function.
     *
     * @param x the input quantities, in an order and in units that the caller of the sampling knows; the array is
     *     reused for the next evaluation and must be neither changed nor kept
     * @return the value of the quantity
     */
    double value(double[] x);
}
