package slowproof.trial.simulator;

import org.apache.commons.rng.JumpableUniformRandomProvider;
import org.apache.commons.rng.LongJumpableUniformRandomProvider;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;

/**
 * Random numbers by place, not by thread: trial k of a study, and series i within it, draw from sequences of
 * their own that cannot overlap (long jumps of 2^192 and jumps of 2^128 steps in one sequence of xoshiro256++).
 * The same seed and place give the same numbers, whoever computes them and in whatever order. Immutable.
 */
public final class RandomStreams {
    private final long seed;
    private final int trial;

    private RandomStreams(long seed, int trial) {
        this.seed = seed;
        this.trial = trial;
    }

    /** Returns the streams of trial 0 of a seed. */
    public static RandomStreams of(long seed) {
        return new RandomStreams(seed, 0);
    }

    /**
     * Returns the streams of one trial of a study with this seed.
     *
     * @param index trial number, at least 0; the cost grows by about a microsecond per trial
     */
    public RandomStreams trial(int index) {
        return new RandomStreams(seed, Check.atLeast(index, 0, "trial"));
    }

    /** Returns the seed. */
    public long seed() {
        return seed;
    }

    /**
     * Returns the generator from which the trial itself (surface, bench) is drawn: stream 0, so that the noise on
     * the bench does not depend on how many numbers it took.
     */
    UniformRandomProvider drawing() {
        return ownSequence().jump();
    }

    /** Returns generators for the noise of a trial: streams 1 to {@code count}. */
    UniformRandomProvider[] generators(int count) {
        JumpableUniformRandomProvider own = ownSequence();
        own.jump();
        UniformRandomProvider[] streams = new UniformRandomProvider[count];
        for (int i = 0; i < count; i++) {
            streams[i] = own.jump();
        }
        return streams;
    }

    private JumpableUniformRandomProvider ownSequence() {
        LongJumpableUniformRandomProvider study =
                (LongJumpableUniformRandomProvider) RandomSource.XO_SHI_RO_256_PP.create(seed);
        JumpableUniformRandomProvider own = study.longJump();
        for (int i = 0; i < trial; i++) {
            own = study.longJump();
        }
        return own;
    }

    /** Returns a sampler of the standard normal distribution. */
    static Normal normal(UniformRandomProvider generator) {
        return ZigguratSampler.NormalizedGaussian.of(generator)::sample;
    }

    /** Draws from the standard normal distribution. */
    @FunctionalInterface
    interface Normal {
        double next();
    }
}
