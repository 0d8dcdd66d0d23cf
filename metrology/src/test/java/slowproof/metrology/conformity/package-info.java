/** Tests of the package of the same name. */
@NullMarked
package slowproof.metrology.conformity;

import org.jspecify.annotations.NullMarked;
