/**
 * The trade: trial, recording, pass, clock, travel spectrum, error curve, findings, forecast, plan. Units
 * inside are mm, s, mm/s and ratios. No input or output, no clock, no logging; seeds are arguments.
 */
@NullMarked
package slowproof.trial;

import org.jspecify.annotations.NullMarked;
