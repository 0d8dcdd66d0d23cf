/** Tests of the package of the same name. */
@NullMarked
package slowproof.metrology.uncertainty;

import org.jspecify.annotations.NullMarked;
