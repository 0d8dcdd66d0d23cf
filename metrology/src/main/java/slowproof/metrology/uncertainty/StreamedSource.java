package slowproof.metrology.uncertainty;

import org.apache.commons.rng.UniformRandomProvider;

/** A model that draws its own inputs and fills arrays with values; asked from several threads at once. */
@FunctionalInterface
public interface StreamedSource {
    /** Draws the values of one block; belongs to one thread and may keep work space between calls. */
    @FunctionalInterface
    interface Filler {
        /**
         * Draws and evaluates.
         *
         * @param values is filled with values of the quantity of interest, {@link StreamedMonteCarlo#BUFFER} long
         * @param companions is filled with values of a second quantity of which only the mean is wanted; same length
         */
        void fill(double[] values, double[] companions);
    }

    /**
     * Returns what fills the arrays of one block.
     *
     * @param random generator of this block alone
     */
    Filler filler(UniformRandomProvider random);
}
