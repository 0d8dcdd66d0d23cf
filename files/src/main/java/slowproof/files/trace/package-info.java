/** Recordings kept in a form in which any window of them is quickly drawn. */
@NullMarked
package slowproof.files.trace;

import org.jspecify.annotations.NullMarked;
