/** Progress and cancellation of long work. */
@NullMarked
package slowproof.trial.work;

import org.jspecify.annotations.NullMarked;
