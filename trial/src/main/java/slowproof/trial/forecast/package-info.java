/**
 * The length error of pieces on a line: what a trial says of a sensor, put on the motion of the line. Analytic and by
 * Monte Carlo over the same model. Units are mm, s, mm/s and ratios.
 */
@NullMarked
package slowproof.trial.forecast;

import org.jspecify.annotations.NullMarked;
