/** Unpacking with a bound, so that a small file cannot fill memory or keep the program busy for hours. */
@NullMarked
package slowproof.files.packed;

import org.jspecify.annotations.NullMarked;
