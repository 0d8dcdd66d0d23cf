/** Placeholder. */
@NullMarked
package slowproof.app;

import org.jspecify.annotations.NullMarked;
