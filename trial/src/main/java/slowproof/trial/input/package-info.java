/** What can be wrong with input, where, and how that is reported; the words live in module wording. */
@NullMarked
package slowproof.trial.input;

import org.jspecify.annotations.NullMarked;
