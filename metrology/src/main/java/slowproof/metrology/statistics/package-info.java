/**
 * Statistics of repeated readings: mean, scatter, pooled scatter and tests for outlying values
 * (ISO 5725-2). Units are the caller's.
 */
@NullMarked
package slowproof.metrology.statistics;

import org.jspecify.annotations.NullMarked;
