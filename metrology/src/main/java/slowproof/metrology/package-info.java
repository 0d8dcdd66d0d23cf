/**
 * Numbers only: uncertainty, conformity, statistics, regression, sampling. Knows no sensor, does no
 * input or output, reads no clock; every random draw comes from a seed that the caller gives.
 */
@NullMarked
package slowproof.metrology;

import org.jspecify.annotations.NullMarked;
