/** Tests of the statistics, and the evaluators of the published cases on statistics. */
@NullMarked
package slowproof.metrology.statistics;

import org.jspecify.annotations.NullMarked;
