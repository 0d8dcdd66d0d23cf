/** Tests of the fits, and the evaluators of the published regression cases. */
@NullMarked
package slowproof.metrology.regression;

import org.jspecify.annotations.NullMarked;
