package slowproof.metrology.uncertainty;

import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import slowproof.metrology.Check;
import slowproof.metrology.Interval;
import slowproof.metrology.sampling.BlockStreams;
import slowproof.metrology.sampling.Moments;
import slowproof.metrology.sampling.ParallelBlocks;

/**
 * Propagation of distributions by Monte Carlo for models that are asked for many millions of values (JCGM 101:2008,
 * clause 7, from memory). Values are not kept: each block of 65 536 goes through one small buffer into moments, a
 * histogram and counts outside two bounds, so memory does not grow with the number of values and nothing is allocated
 * per value. The result depends on the seed and not on the number of threads.
 *
 * <p>The ends of the interval are read from the histogram, straight within a bin. With 8192 bins over the range given
 * (16 standard deviations suit) that is within 1e-5 standard deviations of the values' own quantiles.
 */
public final class StreamedMonteCarlo {
    /** Values of one block. */
    public static final int BLOCK = 1 << 16;

    /** Values drawn at a time: few enough to stay in the nearest cache of one core beside the histogram. */
    public static final int BUFFER = 1 << 9;

    private static final int BINS = 1 << 13;
    private static final int LEAST_BLOCKS = 10;
    private static final int AHEAD = 20;
    // blocks that wait to be added up when none can be the last
    private static final int AT_ONCE = 64;
    // places at which a shortest interval may begin: tail probabilities in equal steps
    private static final int BEGINNINGS = 64;

    private StreamedMonteCarlo() {}

    /**
     * How to run.
     *
     * @param seed any number
     * @param threads how many may work at once, at least 1; no influence on the result
     * @param coverageProbability of the interval, strictly between 0 and 1
     * @param kind which interval of that probability
     * @param digits significant digits of the standard uncertainty that have to be stable, at least 1; 0 to run all
     *     values whatever
     * @param mostValues where to stop, at least 2: exactly so many where all are run; rounded up to whole blocks where
     *     blocks are compared with each other
     * @param range where nearly all values lie
     * @param bounds values outside are counted
     */
    public record Plan(
            long seed,
            int threads,
            double coverageProbability,
            IntervalKind kind,
            int digits,
            long mostValues,
            Interval range,
            Interval bounds) {
        /** Checks the values. */
        public Plan {
            Check.openProbability(coverageProbability, "coverage probability");
            if (threads < 1 || digits < 0 || mostValues < 2 || !(range.width() > 0)) {
                throw new IllegalArgumentException(
                        "a run needs threads, two values and a range: " + threads + ", " + mostValues + ", " + range);
            }
        }
    }

    /**
     * What came out.
     *
     * @param values number of values
     * @param mean their mean
     * @param companionMean mean of the companions
     * @param standardDeviation their standard deviation
     * @param interval coverage interval of the kind asked for
     * @param below values below the bounds
     * @param above values above the bounds
     * @param stable whether mean, standard deviation and interval ends reached the numerical tolerance (7.9)
     */
    public record Result(
            long values,
            double mean,
            double companionMean,
            double standardDeviation,
            Interval interval,
            long below,
            long above,
            boolean stable) {}

    /**
     * Runs blocks until the result is stable or the values are used up.
     *
     * @param source the model
     * @param plan how to run
     */
    public static Result run(StreamedSource source, Plan plan) {
        int rest = plan.digits == 0 ? (int) (plan.mostValues % BLOCK) : 0;
        long whole = rest > 0 ? plan.mostValues / BLOCK : (plan.mostValues + BLOCK - 1) / BLOCK;
        int most = (int) Math.min(Integer.MAX_VALUE, whole);
        BlockStreams streams = BlockStreams.of(plan.seed);
        Gathered all = new Gathered(plan);
        boolean stable = plan.digits == 0;
        while (all.blocks < most) {
            int next = Math.min(most - all.blocks, plan.digits == 0 ? AT_ONCE : AHEAD);
            List<Block> blocks =
                    ParallelBlocks.map(streams, next, plan.threads, random -> new Block(source, random, plan, BLOCK));
            for (Block block : blocks) {
                all.add(block);
                if (plan.digits > 0 && all.blocks >= LEAST_BLOCKS && all.reached()) {
                    return all.result(true);
                }
            }
        }
        if (rest > 0) {
            all.add(new Block(source, streams.next(), plan, rest));
        }
        return all.result(stable);
    }

    private static final class Block {
        final int[] bins = new int[BINS];
        Moments moments = Moments.NONE;
        double companions;
        long below;
        long above;

        Block(StreamedSource source, UniformRandomProvider random, Plan plan, int size) {
            double[] values = new double[BUFFER];
            double[] second = new double[BUFFER];
            int[] place = new int[BUFFER];
            double start = plan.range.low();
            double scale = BINS / plan.range.width();
            StreamedSource.Filler filler = source.filler(random);
            for (int done = 0; done < size; done += BUFFER) {
                filler.fill(values, second);
                if (size - done < BUFFER) {
                    // a source fills whole buffers, and may put values of one kind side by side; so those that are
                    // taken lie all over it
                    values = evenly(values, size - done);
                    second = evenly(second, size - done);
                    place = new int[size - done];
                }
                moments = moments.plus(moments(values));
                companions += sum(second);
                below += below(values, plan.bounds.low());
                above += above(values, plan.bounds.high());
                places(values, start, scale, place);
                count(place, bins);
            }
            if (!Double.isFinite(moments.mean())) {
                throw new ArithmeticException("the model gave a value that is not finite");
            }
        }

        // short loops in methods of their own, which the compiler turns into good code one by one

        private static Moments moments(double[] values) {
            double origin = values[0];
            // two sums each: additions of one wait for each other
            double sum = 0;
            double otherSum = 0;
            double squares = 0;
            double otherSquares = 0;
            int pairs = values.length & ~1;
            for (int i = 0; i < pairs; i += 2) {
                double off = values[i] - origin;
                double otherOff = values[i + 1] - origin;
                sum += off;
                otherSum += otherOff;
                squares += off * off;
                otherSquares += otherOff * otherOff;
            }
            if (pairs < values.length) {
                double off = values[pairs] - origin;
                sum += off;
                squares += off * off;
            }
            sum += otherSum;
            squares += otherSquares;
            return new Moments(
                    values.length, origin + sum / values.length, Math.max(0, squares - sum * sum / values.length));
        }

        private static double[] evenly(double[] values, int count) {
            double[] some = new double[count];
            for (int i = 0; i < count; i++) {
                some[i] = values[i * values.length / count];
            }
            return some;
        }

        private static double sum(double[] values) {
            double sum = 0;
            double other = 0;
            int pairs = values.length & ~1;
            for (int i = 0; i < pairs; i += 2) {
                sum += values[i];
                other += values[i + 1];
            }
            return sum + other + (pairs < values.length ? values[pairs] : 0);
        }

        private static int below(double[] values, double bound) {
            int below = 0;
            for (double value : values) {
                below += value < bound ? 1 : 0;
            }
            return below;
        }

        private static int above(double[] values, double bound) {
            int above = 0;
            for (double value : values) {
                above += value > bound ? 1 : 0;
            }
            return above;
        }

        private static void count(int[] place, int[] bins) {
            for (int bin : place) {
                bins[bin]++;
            }
        }

        private static void places(double[] values, double start, double scale, int[] place) {
            for (int i = 0; i < values.length; i++) {
                int bin = (int) ((values[i] - start) * scale);
                place[i] = Math.max(0, Math.min(BINS - 1, bin));
            }
        }
    }

    private static final class Gathered {
        private final Plan plan;
        private final long[] bins = new long[BINS];
        private final Moments[] results = {Moments.NONE, Moments.NONE, Moments.NONE, Moments.NONE};
        private Moments moments = Moments.NONE;
        private double companions;
        private long below;
        private long above;
        int blocks;

        Gathered(Plan plan) {
            this.plan = plan;
        }

        void add(Block block) {
            long[] own = new long[BINS];
            for (int i = 0; i < BINS; i++) {
                own[i] = block.bins[i];
                bins[i] += block.bins[i];
            }
            moments = moments.plus(block.moments);
            companions += block.companions;
            below += block.below;
            above += block.above;
            blocks++;
            if (plan.digits == 0) {
                // nobody asks how blocks differ
                return;
            }
            Interval interval = interval(own);
            double[] found = {block.moments.mean(), block.moments.standardDeviation(), interval.low(), interval.high()};
            for (int i = 0; i < found.length; i++) {
                results[i] = results[i].plus(new Moments(1, found[i], 0));
            }
        }

        boolean reached() {
            double uncertainty = moments.standardDeviation();
            if (uncertainty == 0) {
                return true;
            }
            double tolerance = NumericalTolerance.of(uncertainty, plan.digits);
            for (Moments result : results) {
                if (!(2 * result.standardDeviation() / Math.sqrt((double) result.count()) < tolerance)) {
                    return false;
                }
            }
            return true;
        }

        private Interval interval(long[] counts) {
            double outside = 1 - plan.coverageProbability;
            if (plan.kind == IntervalKind.SYMMETRIC) {
                return interval(counts, outside / 2);
            }
            Interval shortest = interval(counts, 0);
            for (int k = 1; k <= BEGINNINGS; k++) {
                Interval other = interval(counts, outside * k / BEGINNINGS);
                shortest = other.width() < shortest.width() ? other : shortest;
            }
            return shortest;
        }

        private Interval interval(long[] counts, double below) {
            double low = quantile(counts, below);
            return new Interval(low, Math.max(low, quantile(counts, Math.min(1, below + plan.coverageProbability))));
        }

        private double quantile(long[] counts, double p) {
            long all = 0;
            for (long count : counts) {
                all += count;
            }
            double wanted = p * all;
            long before = 0;
            for (int i = 0; i < BINS; i++) {
                if (before + counts[i] >= wanted && counts[i] > 0) {
                    double share = (wanted - before) / counts[i];
                    return plan.range.low() + (i + share) * plan.range.width() / BINS;
                }
                before += counts[i];
            }
            return plan.range.high();
        }

        Result result(boolean stable) {
            return new Result(
                    moments.count(),
                    moments.mean(),
                    companions / moments.count(),
                    moments.standardDeviation(),
                    interval(bins),
                    below,
                    above,
                    stable);
        }
    }
}
