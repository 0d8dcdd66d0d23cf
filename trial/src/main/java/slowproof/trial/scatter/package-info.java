/**
 * Scatter of passes: what a start, the travel and a new series each add. Units are mm and mm/s. Knows the
 * statistics of passes, not the error curve.
 */
@NullMarked
package slowproof.trial.scatter;

import org.jspecify.annotations.NullMarked;
