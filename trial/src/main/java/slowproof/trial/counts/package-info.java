/**
 * Counted edges: registers that wrap, two square waves in quadrature, and what counting limits. Counts are
 * dimensionless, distances mm, times s. Knows no files and no recordings.
 */
@NullMarked
package slowproof.trial.counts;

import org.jspecify.annotations.NullMarked;
