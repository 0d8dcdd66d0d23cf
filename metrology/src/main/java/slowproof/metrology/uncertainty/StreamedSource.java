package slowproof.metrology.uncertainty;

import org.apache.commons.rng.UniformRandomProvider;

/** A model that draws its own inputs and fills arrays with values; called from several threads at once. */
@FunctionalInterface
public interface StreamedSource {
    /**
     * Draws and evaluates.
     *
     * @param random generator of this block alone
     * @param values is filled with values of the quantity of interest
     * @param companions is filled with values of a second quantity of which only the mean is wanted; same length
     */
    void fill(UniformRandomProvider random, double[] values, double[] companions);
}
