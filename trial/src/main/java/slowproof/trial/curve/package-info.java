/**
 * The error curve of a sensor at one material, from the errors of its passes: the curve with its posterior,
 * the floor speed, the scale error, what compensation would leave. Entry point is {@code CurveFit}. Units are
 * mm, s, mm/s and ratios.
 */
@NullMarked
package slowproof.trial.curve;

import org.jspecify.annotations.NullMarked;
