/**
 * What the events of a trial add up to: facts, series, readings as typed, and the trial that can be evaluated.
 * Pure: no input or output, no clock.
 *
 * <p>Entry points: {@link slowproof.archive.sheet.Sheet} (what was typed) and
 * {@link slowproof.archive.sheet.SheetTrial} (what it means).
 */
@NullMarked
package slowproof.archive.sheet;

import org.jspecify.annotations.NullMarked;
