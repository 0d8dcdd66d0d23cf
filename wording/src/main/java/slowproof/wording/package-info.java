/** Placeholder. */
@NullMarked
package slowproof.wording;

import org.jspecify.annotations.NullMarked;
