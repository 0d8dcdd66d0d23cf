package slowproof.metrology.uncertainty;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import slowproof.metrology.sampling.BlockStreams;
import slowproof.metrology.sampling.Moments;
import slowproof.metrology.sampling.ParallelBlocks;

/**
 * Propagation of distributions by Monte Carlo (JCGM 101:2008, clause 7; clauses from memory).
 *
 * <p>Trials are drawn in blocks of max(10^4, 100/(1 - p)), with Sobol points the next power of two. Every block has
 * its own stream of random numbers, so the result depends on the seed and not on the number of threads.
 */
public final class MonteCarlo {

    // The standard deviation of a handful of blocks is too uncertain to stop on; two, as 7.9.4 allows, stops too early
    // more often than not.
    private static final int LEAST_BLOCKS = 10;

    private MonteCarlo() {}

    /**
     * Runs a fixed number of trials.
     *
     * @param model the model; evaluated from several threads when the settings have them
     * @param trials at least 2; rounded up to whole blocks
     * @param settings how to run
     * @return the result, always called stable
     * @throws IllegalArgumentException if there are too few or too many trials, or correlated inputs are neither all
     *     normal nor all Student's with the same degrees of freedom, or the coefficients contradict each other
     * @throws ArithmeticException if the model gives a value that is not finite
     */
    public static MonteCarloResult fixed(UncertaintyModel model, long trials, MonteCarloSettings settings) {
        if (trials < 2) {
            throw new IllegalArgumentException("at least two trials are needed: " + trials);
        }
        BlockPropagation worker = new BlockPropagation(model, settings);
        int blocks = worker.blocksFor(trials);
        return gathered(
                ParallelBlocks.map(BlockStreams.of(settings.seed()), blocks, settings.threads(), worker::block),
                settings,
                true);
    }

    /**
     * Adds blocks until the result is stable (JCGM 101:2008, 7.9), at least ten.
     *
     * @param model the model; evaluated from several threads when the settings have them
     * @param rule when to stop
     * @param settings how to run
     * @return the result
     * @throws IllegalArgumentException as {@link #fixed}
     * @throws ArithmeticException if the model gives a value that is not finite
     */
    public static MonteCarloResult adaptive(UncertaintyModel model, Adaptive rule, MonteCarloSettings settings) {
        BlockPropagation worker = new BlockPropagation(model, settings);
        int most = Math.max(LEAST_BLOCKS, worker.blocksFor(rule.mostTrials()));
        BlockStreams streams = BlockStreams.of(settings.seed());
        Stability stability = new Stability(rule, settings.coverageProbability());
        List<PropagatedBlock> blocks = new ArrayList<>();
        while (blocks.size() < most) {
            // some blocks ahead, to keep threads busy; how many depends on the work done and not on the threads
            int ahead = Math.min(most - blocks.size(), Math.max(LEAST_BLOCKS, blocks.size() / 4));
            for (PropagatedBlock block : ParallelBlocks.map(streams, ahead, settings.threads(), worker::block)) {
                blocks.add(block);
                stability.add(block);
                if (blocks.size() >= LEAST_BLOCKS && stability.reached()) {
                    return gathered(blocks, settings, true);
                }
            }
        }
        return gathered(blocks, settings, false);
    }

    private static MonteCarloResult gathered(
            List<PropagatedBlock> blocks, MonteCarloSettings settings, boolean stable) {
        Moments moments = Moments.NONE;
        int size = blocks.get(0).size();
        double[] all = new double[Math.multiplyExact(size, blocks.size())];
        for (int b = 0; b < blocks.size(); b++) {
            moments = moments.plus(blocks.get(b).moments());
            blocks.get(b).copyTo(all, b * size);
        }
        // the blocks are sorted runs already, which the library merges
        if (settings.threads() > 1) {
            Arrays.parallelSort(all);
        } else {
            Arrays.sort(all);
        }
        return new MonteCarloResult(
                moments.mean(), moments.standardDeviation(), settings.coverageProbability(), stable, all);
    }
}
