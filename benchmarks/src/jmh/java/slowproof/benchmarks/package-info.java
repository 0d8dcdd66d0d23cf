/** Measurements of speed and of memory use, by JMH. */
@NullMarked
package slowproof.benchmarks;

import org.jspecify.annotations.NullMarked;
