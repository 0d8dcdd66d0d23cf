/**
 * How much distance a motion spends at each speed: the hinge between bench passes, plans and lines. Units are
 * mm, s and mm/s. Knows motion only, nothing of sensors or errors.
 */
@NullMarked
package slowproof.trial.spectrum;

import org.jspecify.annotations.NullMarked;
