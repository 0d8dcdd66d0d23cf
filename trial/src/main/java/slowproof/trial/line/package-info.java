/**
 * The motion of a production line while it makes pieces: described step by step or taken from a speed log, cut
 * in pieces. Units are mm, s and mm/s. Knows motion only, nothing of sensors or errors.
 */
@NullMarked
package slowproof.trial.line;

import org.jspecify.annotations.NullMarked;
