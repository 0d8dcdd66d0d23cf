/** Charts of a forecast. */
@NullMarked
package slowproof.report.forecast;

import org.jspecify.annotations.NullMarked;
