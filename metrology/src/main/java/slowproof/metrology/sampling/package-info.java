/**
 * Random and quasi-random sampling: streams of random numbers that do not depend on the number of threads,
 * evenly spread points, and variance-based sensitivity. Units are the caller's.
 *
 * <p>Work is cut into numbered blocks. Block b always uses stream b, and results are gathered in the order of
 * the blocks, so that the same seed gives the same bits on one thread or many.
 */
@NullMarked
package slowproof.metrology.sampling;

import org.jspecify.annotations.NullMarked;
