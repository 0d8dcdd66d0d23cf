/** Tests of the package of the same name. */
@NullMarked
package slowproof.metrology.sampling;

import org.jspecify.annotations.NullMarked;
