package slowproof.metrology.sampling;

import org.apache.commons.rng.JumpableUniformRandomProvider;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;

/**
 * Streams of random numbers for numbered blocks of work. The streams of one seed are stretches of one long
 * sequence, 2^128 numbers apart, so they do not overlap (xoshiro256++ with its jump, Blackman and Vigna 2021).
 *
 * <p>Handed out in order by one thread; each stream may then be used by one other thread.
 */
public final class BlockStreams {

    private final JumpableUniformRandomProvider ahead;

    private BlockStreams(JumpableUniformRandomProvider ahead) {
        this.ahead = ahead;
    }

    /**
     * Starts at block 0.
     *
     * @param seed any number; the same seed gives the same streams
     * @return the streams
     */
    public static BlockStreams of(long seed) {
        return new BlockStreams((JumpableUniformRandomProvider) RandomSource.XO_SHI_RO_256_PP.create(seed));
    }

    /**
     * Returns the stream of the next block.
     *
     * @return a generator of its own
     */
    public UniformRandomProvider next() {
        return ahead.jump();
    }
}
