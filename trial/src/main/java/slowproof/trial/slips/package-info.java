/** Likely slips of typing, put as questions. Entry point: {@link slowproof.trial.slips.Slips}. */
@NullMarked
package slowproof.trial.slips;

import org.jspecify.annotations.NullMarked;
