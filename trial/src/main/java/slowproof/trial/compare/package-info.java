/**
 * Compares results of trials: trials, set-ups, materials or sensors side by side, with the difference at each speed, its
 * interval and a test whether it is one. Relative quantities are ratios.
 *
 * <p>Entry point: {@link slowproof.trial.compare.Comparison}.
 */
@NullMarked
package slowproof.trial.compare;

import org.jspecify.annotations.NullMarked;
