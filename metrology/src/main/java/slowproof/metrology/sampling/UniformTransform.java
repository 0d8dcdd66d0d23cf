package slowproof.metrology.sampling;

/**
 * Turns independent numbers between 0 and 1 into draws of input quantities, each number through the quantile
 * function of its quantity; needed where points are placed on purpose instead of at random. Safe for several
 * threads.
 */
public interface UniformTransform {

    /**
     * Returns how many uniform numbers a draw consumes.
     *
     * @return at least 1
     */
    int uniforms();

    /**
     * Returns how many quantities a draw has.
     *
     * @return at least 1
     */
    int quantities();

    /**
     * Computes a draw.
     *
     * @param u strictly between 0 and 1 each; not modified
     * @param x overwritten with the quantities
     */
    void apply(double[] u, double[] x);
}
