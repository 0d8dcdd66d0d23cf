/**
 * Reads logs of any dialect into recordings. Entry point: {@link slowproof.files.log.LogReader}. Separator, decimal
 * sign, headings, units and encoding are recognised or told by the trial, and {@link slowproof.files.log.ReadAs} says
 * what was understood.
 */
@NullMarked
package slowproof.files.log;

import org.jspecify.annotations.NullMarked;
