/** Placeholder. */
@NullMarked
package slowproof.files;

import org.jspecify.annotations.NullMarked;
