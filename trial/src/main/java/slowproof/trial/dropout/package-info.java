/**
 * How healthy the signal must look for a pass to be trusted: the largest dropout share at which passes stay
 * inside the limit. Shares are percent of the time of a pass.
 */
@NullMarked
package slowproof.trial.dropout;

import org.jspecify.annotations.NullMarked;
