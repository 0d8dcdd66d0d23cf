/** What leaves the house: charts, and the written answer. Knows the results and the words, reads and writes no files. */
@NullMarked
package slowproof.report;

import org.jspecify.annotations.NullMarked;
