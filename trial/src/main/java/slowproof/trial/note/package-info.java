/** Notes, flags and quantities that accompany results; the words live in module wording. */
@NullMarked
package slowproof.trial.note;

import org.jspecify.annotations.NullMarked;
