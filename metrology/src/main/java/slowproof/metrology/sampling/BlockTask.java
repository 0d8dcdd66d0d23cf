package slowproof.metrology.sampling;

import org.apache.commons.rng.UniformRandomProvider;

/**
 * The work of one block.
 *
 * @param <T> its result
 */
@FunctionalInterface
public interface BlockTask<T> {

    /**
     * Does the work. Everything random in it comes from the generator that is passed in.
     *
     * @param random generator of this block alone
     * @return the result
     */
    T run(UniformRandomProvider random);
}
