/** One description of a chart, and the painters that draw it: the same picture on a page and in a document. */
@NullMarked
package slowproof.report.chart;

import org.jspecify.annotations.NullMarked;
