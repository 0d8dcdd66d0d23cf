/** Placeholder. */
@NullMarked
package slowproof.trial;

import org.jspecify.annotations.NullMarked;
